/** How words are set off in a text report. On anything but a terminal they are not. */
export interface Style {
  readonly bold: (text: string) => string;
  readonly dim: (text: string) => string;
}

const setOff =
  (start: number, end: number) =>
  (text: string): string =>
    `\u001b[${start}m${text}\u001b[${end}m`;
const same = (text: string): string => text;

/** Nothing set off. */
export const PLAIN_STYLE: Style = { bold: same, dim: same };

/** Weights only, no colours, so that it reads on any background (ECMA-48: 1 bold, 2 faint, 22 neither). */
export const TERMINAL_STYLE: Style = { bold: setOff(1, 22), dim: setOff(2, 22) };
