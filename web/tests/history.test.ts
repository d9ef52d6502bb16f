import { describe, expect, it } from 'vitest';
import { History } from '../src/history.ts';

const at = (text: string) => ({ text, setUp: 0 });

describe('undo and redo', () => {
  it('go back and forth over what was there', () => {
    const h = new History();
    h.record(at('one'));
    h.record(at('two'));
    expect(h.undo(at('three'))).toEqual(at('two'));
    expect(h.undo(at('two'))).toEqual(at('one'));
    expect(h.undo(at('one'))).toBeNull();
    expect(h.redo(at('one'))).toEqual(at('two'));
    expect(h.redo(at('two'))).toEqual(at('three'));
    expect(h.redo(at('three'))).toBeNull();
  });
  it('forget what was undone once something else is done', () => {
    const h = new History();
    h.record(at('one'));
    h.undo(at('two'));
    expect(h.canRedo).toBe(true);
    h.record(at('one'));
    expect(h.canRedo).toBe(false);
  });
  it('do not remember the same moment twice', () => {
    const h = new History();
    h.record(at('one'));
    h.record(at('one'));
    h.undo(at('two'));
    expect(h.canUndo).toBe(false);
  });
  it('keep a bounded past', () => {
    const h = new History();
    for (let i = 0; i < 500; i++) h.record(at(String(i)));
    let steps = 0;
    while (h.undo(at('now'))) steps++;
    expect(steps).toBe(200);
  });
});
