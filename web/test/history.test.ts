import { describe, expect, it } from 'vitest';
import { begin, closeRun, redo, step, undo } from '../src/document/history.ts';

describe('undo and redo', () => {
  it('lead back to the start and forward again', () => {
    const history = ['b', 'c', 'd'].reduce((all, each) => step(all, each), begin('a'));
    const start = undo(undo(undo(undo(history))));
    expect(start.now).toBe('a');
    expect(redo(redo(redo(redo(start)))).now).toBe('d');
  });

  it('take a run of small steps as one', () => {
    let history = begin(0);
    for (let i = 1; i <= 20; ++i) history = step(history, i, 'key red-1');
    expect(undo(history).now).toBe(0);
  });

  it('begin a new run after another step, and after a pause', () => {
    let history = step(step(begin(0), 1, 'key red-1'), 2, 'key red-2');
    history = step(closeRun(history), 3, 'key red-2');
    expect(undo(history).now).toBe(2);
    expect(undo(undo(history)).now).toBe(1);
  });

  it('forget what was undone once something new is done', () => {
    const history = step(undo(step(begin('a'), 'b')), 'c');
    expect(history.future).toEqual([]);
    expect(undo(history).now).toBe('a');
  });
});
