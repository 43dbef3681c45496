import { SafeNames } from './safe-names.js';

/**
 * File names of the machines' pages, made from the names that the day's rows call machines by (`nameMachine`).
 *
 * A page's further parts are `machine-v101.2.html` and so on: a dot comes from no machine's name, so no part can clash.
 */
export class MachinePageNames {
  readonly #names = new SafeNames('machine-');
  readonly #written = new Set<string>();

  /** The name for a page that is being written; from now on links lead to it. */
  of(machine: string, part = 1): string {
    this.#written.add(machine);
    return this.#nameOf(machine, part);
  }

  /** The file name of a machine's page; null when none is written, so that no link leads nowhere. */
  linkTo(machine: string): string | null {
    return this.#written.has(machine) ? this.#nameOf(machine, 1) : null;
  }

  #nameOf(machine: string, part: number): string {
    return `${this.#names.of(machine)}${part === 1 ? '' : `.${part}`}.html`;
  }
}
