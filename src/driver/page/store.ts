/** A value that others are told of when it changes; several changes in one go are told once. */
export class Store<Value> {
  readonly #onChange: (value: Value) => void;
  #value: Value;
  #isDue = false;

  constructor(value: Value, onChange: (value: Value) => void) {
    this.#value = value;
    this.#onChange = onChange;
  }

  get value(): Value {
    return this.#value;
  }

  set(value: Value): void {
    this.#value = value;
    if (this.#isDue) return;
    this.#isDue = true;
    queueMicrotask(() => {
      this.#isDue = false;
      this.#onChange(this.#value);
    });
  }
}
