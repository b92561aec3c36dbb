// The parts of look/look.json that a drawing needs as numbers and letters; its colours are CSS.
import look from '../../look/look.json';

export interface BallLook {
  readonly letter: string;
  readonly pattern: string;
}

export const lines = look.lines_mm;
export const ribbon = look.ribbon;

const balls: Record<string, BallLook> = look.balls;

export function ballLook(colour: string): BallLook {
  return balls[colour] ?? { letter: '', pattern: 'plain' };
}
