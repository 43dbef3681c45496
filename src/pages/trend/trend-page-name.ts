import type { Site } from '../frame/index.js';

/** The file name of a machine's trend page: that of its own page with a part of its own, which no machine's name gives. */
export function trendPageName({ machinePages }: Site, machine: string, part = 1): string {
  const stem = machinePages.of(machine).replace(/\.html$/, '');
  return `${stem}.trend${part === 1 ? '' : `.${part}`}.html`;
}
