import type { Installation } from '../installation.js';
import type { InstallJson } from '../shapes/install.js';

/** An install check as programs get it. */
export function installToJson({ file, second, check }: Installation): InstallJson {
  const { passed, headline, items } = check;
  return { file, second, passed, headline, items: [...items] };
}
