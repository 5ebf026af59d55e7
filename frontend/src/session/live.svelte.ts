// What the screens see of the bench: `now` is what it is, and what was drawn from it is drawn anew when it changes.
export class Live<T> {
  now: T = $state.raw()!;
  constructor(first: T) { this.now = first; }
}
