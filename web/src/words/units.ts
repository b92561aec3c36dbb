// Lengths on screen. Files and the server always speak mm.
export type Unit = 'mm' | 'in';

const mm_per_inch = 25.4;

/** "430 mm", "16.9 in": a coach sets a ball to a few millimetres, so no finer. */
export function length(mm: number, unit: Unit): string {
  return `${figure(mm, unit)} ${unit}`;
}

/** The bare figure. */
export function figure(mm: number, unit: Unit): string {
  return unit === 'mm' ? String(Math.round(mm)) : (mm / mm_per_inch).toFixed(1);
}

/** For fields in which a place is typed: a tenth of a mm, a hundredth of an inch. */
export function typed(mm: number, unit: Unit): number {
  return unit === 'mm' ? Math.round(mm * 10) / 10 : Math.round((mm / mm_per_inch) * 100) / 100;
}

export function untyped(value: number, unit: Unit): number {
  return unit === 'mm' ? value : value * mm_per_inch;
}

/** Distances between the figures of the tape, mm, and how many small marks fill each. */
export function tape(unit: Unit): { step_mm: number; label_every: number } {
  return unit === 'mm'
    ? { step_mm: 100, label_every: 5 }
    : { step_mm: 2 * mm_per_inch, label_every: 5 };
}
