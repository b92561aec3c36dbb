// look/look.json as CSS custom properties, for the build.
interface Look {
  themes: { light: Record<string, string>; dark: Record<string, string> };
  fonts: { body: string; heading: string };
  balls: Record<string, { fill: string; text: string }>;
}

function properties(values: Record<string, string>): string {
  return Object.entries(values)
    .map(([name, value]) => `--${name}:${value}`)
    .join(';');
}

export function lookStyle(text: string): string {
  const look = JSON.parse(text) as Look;
  const light = `color-scheme:light;${properties(look.themes.light)}`;
  const dark = `color-scheme:dark;${properties(look.themes.dark)}`;
  const path = (name: string, fill: string) =>
    name === 'cue'
      ? 'var(--accent)'
      : name === 'black'
        ? 'var(--ink)'
        : `color-mix(in srgb, ${fill} 78%, var(--ink))`;
  const balls = Object.entries(look.balls)
    .map(
      ([name, ball]) =>
        `.ball.${name}{--ball:${ball.fill};--letter:${ball.text}}.of-${name}{--path:${path(name, ball.fill)}}`,
    )
    .join('\n');
  return `
:root{${light};--body-font:'Inter Variable',${look.fonts.body};--heading-font:'Vollkorn Variable',${look.fonts.heading}}
@media screen and (prefers-color-scheme:dark){:root:not([data-theme=light]){${dark}}}
@media screen{:root[data-theme=dark]{${dark}}}
${balls}
`;
}
