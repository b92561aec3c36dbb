// What is open on the page and can be undone: the table, the plan for it, and the question that is
// being asked about one of its shots.
import type { Call, Layout, Moves, Plan, PlanView, Player, Touch } from '../server/types.ts';

/** "What if?" about one shot of the plan: its own balls, call and touch. */
export interface Question {
  readonly shot: number;
  readonly layout: Layout;
  readonly call: Call;
  readonly touch: Touch | null;
}

export interface Opened {
  readonly layoutId: string;
  readonly name: string;
  readonly layout: Layout;
  readonly player: Player;
  readonly planId: string | null;
  readonly plan: Plan | null;
  readonly parent: string | null;
  readonly question: Question | null;
}

export function newId(): string {
  return crypto.randomUUID();
}

/** The plan still belongs to the table as it stands. */
export function fits(opened: Opened): boolean {
  if (!opened.plan) return false;
  const { layout, player } = opened.plan;
  return sameLayout(layout, opened.layout) && player.id === opened.player.id;
}

export function sameLayout(a: Layout, b: Layout): boolean {
  const key = (layout: Layout) =>
    JSON.stringify([
      layout.rules,
      layout.to_play,
      typeof layout.table === 'string' ? layout.table : layout.table.id,
      layout.balls.map((ball) => [ball.id, ball.at[0], ball.at[1], ball.sigma_mm ?? 0]).sort(),
    ]);
  return a === b || key(a) === key(b);
}

export function withoutPlan(opened: Opened): Opened {
  return { ...opened, planId: null, plan: null, parent: null, question: null };
}

/** The table as a shot leaves it. */
export function afterMoves(before: Layout, moves: Moves): Layout {
  const balls = before.balls.flatMap((ball) => {
    const move = moves.balls.find((each) => each.ball === ball.id);
    if (!move) return [ball];
    return move.end ? [{ id: ball.id, at: [...move.end] }] : [];
  });
  return { ...before, balls };
}

/** Whose turn it is once the last ball of a colour has gone. */
export function turned(layout: Layout): Layout {
  const { to_play, rules, balls } = layout;
  const left = balls.some((ball) => ball.id.split('-')[0] === to_play);
  if (left || !['red', 'yellow', 'solid', 'stripe'].includes(to_play)) return layout;
  return { ...layout, to_play: rules === 'snooker' ? 'colours' : 'black' };
}

/**
 * A plan from shot `index` on put in place of what was planned there. From the first shot on it is
 * the whole, with its chance; later, the chance of the whole is marked as not tried.
 */
export function withRest(whole: PlanView, index: number, rest: PlanView): PlanView {
  if (index === 0) return rest;
  const plan: Plan = {
    ...whole.plan,
    complete: rest.plan.complete,
    effort: rest.plan.effort,
    partial: rest.plan.partial,
    chance: { value: 0, low: 0, high: 1, trials: 0 },
    simulated_shots: whole.plan.simulated_shots + rest.plan.simulated_shots,
    shots: [...whole.plan.shots.slice(0, index), ...rest.plan.shots],
  };
  return {
    ...whole,
    plan,
    title: `From shot ${index + 1} on: ${rest.title}`,
    shots: [...whole.shots.slice(0, index), ...rest.shots],
  };
}
