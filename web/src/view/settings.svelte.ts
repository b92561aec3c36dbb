// What a person likes, kept in this browser: no part of any document.
import type { Unit } from '../words/units.ts';

export type Theme = 'system' | 'light' | 'dark';

function stored(key: string): string | null {
  try {
    return localStorage.getItem(`three-ahead.${key}`);
  } catch {
    return null;
  }
}

function store(key: string, value: string): void {
  try {
    localStorage.setItem(`three-ahead.${key}`, value);
  } catch {
    // A browser that keeps nothing asks again next time.
  }
}

class Settings {
  unit = $state<Unit>(stored('unit') === 'in' ? 'in' : 'mm');
  theme = $state<Theme>((stored('theme') as Theme | null) ?? 'system');
  hint = $state(stored('hint') !== 'seen');

  setUnit(unit: Unit): void {
    this.unit = unit;
    store('unit', unit);
  }

  setTheme(theme: Theme): void {
    this.theme = theme;
    store('theme', theme);
    this.showTheme();
  }

  showTheme(): void {
    if (this.theme === 'system') delete document.documentElement.dataset['theme'];
    else document.documentElement.dataset['theme'] = this.theme;
  }

  closeHint(): void {
    this.hint = false;
    store('hint', 'seen');
  }

  /** The layout and plan that were open last. */
  get last(): { layout: string; plan: string | null } | null {
    const text = stored('last');
    return text ? (JSON.parse(text) as { layout: string; plan: string | null }) : null;
  }

  setLast(layout: string, plan: string | null): void {
    store('last', JSON.stringify({ layout, plan }));
  }
}

export const settings = new Settings();
