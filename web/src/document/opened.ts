// What is open on the page and can be undone: the table, the plan for it, and the question that is
// being asked about one of its shots.
import type { Call, Layout, Moves, Option, Plan, Player, Touch } from '../server/types.ts';
import type { LiveShot, PlanView } from '../server/types.ts';

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

/** The tables of a plan's drawings, each with the colour that is on there. */
export function turnedView(view: PlanView): PlanView {
  return {
    ...view,
    shots: view.shots.map((shot) => ({ ...shot, before: turned(shot.before) })),
  };
}

/**
 * A tried shot as an option of a plan. What a live answer does not estimate, the chance to clear and
 * that of the next pot, is marked as not tried.
 */
export function optionOf(live: LiveShot): Option | null {
  const { call, strike, access, pot, fates, cue_path: path } = live;
  if (!call || !strike || !access || !pot || !fates || !path) return null;
  return {
    ball: call.ball,
    pocket: call.pocket,
    strike,
    access,
    cut_deg: live.cut_deg ?? 0,
    cut_to_left: live.cut_to_left ?? false,
    thickness: Math.min(1, Math.max(0, live.thickness ?? 0)),
    to_ball_mm: live.to_ball_mm ?? 0,
    to_pocket_mm: live.to_pocket_mm ?? 0,
    pot,
    clear: { value: 0, low: 0, high: 1, trials: 0 },
    fates,
    next_pot: 0,
    cue_path: path,
    landings: live.landings,
  };
}

/** The plan with another way to play one shot, up to that shot; what was planned there is its rival. */
export function withShot(plan: Plan, index: number, option: Option): Plan {
  const old = plan.shots[index];
  if (!old) return plan;
  const { balls_before, runner_up: _, why_lost: __, words: ___, ...given } = old;
  return {
    ...plan,
    complete: false,
    chance: { value: 0, low: 0, high: 1, trials: 0 },
    shots: [
      ...plan.shots.slice(0, index),
      { ...option, balls_before, runner_up: given, why_lost: 'too-close-to-call' },
    ],
  };
}

/** `head` goes on with the shots of `tail`, which was planned from where `head` leaves the table. */
export function joined(head: Plan, tail: Plan): Plan {
  return { ...head, complete: tail.complete, shots: [...head.shots, ...tail.shots] };
}
