// Undo and redo over the text of a shoot: what was there, oldest first.

export type Moment = { text: string; setUp: number };

/** How many steps back are kept; a shoot file is small. */
const MOST = 200;

export class History {
  private past: Moment[] = [];
  private future: Moment[] = [];

  get canUndo(): boolean {
    return this.past.length > 0;
  }
  get canRedo(): boolean {
    return this.future.length > 0;
  }

  /** Remembers the moment before a change. What was undone before it is gone. */
  record(before: Moment): void {
    if (this.past.at(-1)?.text !== before.text) this.past.push(before);
    if (this.past.length > MOST) this.past.shift();
    this.future = [];
  }

  /** Steps back from `now`; null at the beginning. */
  undo(now: Moment): Moment | null {
    const before = this.past.pop();
    if (!before) return null;
    this.future.push(now);
    return before;
  }

  /** Steps forward again; null at the end. */
  redo(now: Moment): Moment | null {
    const after = this.future.pop();
    if (!after) return null;
    this.past.push(now);
    return after;
  }

  clear(): void {
    this.past = [];
    this.future = [];
  }
}
