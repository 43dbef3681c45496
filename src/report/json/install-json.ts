import type { InstallItem } from '../../checks/index.js';
import { sayCautions } from '../../findings/index.js';
import type { Installation } from '../installation.js';
import type { InstallJson } from '../shapes/install.js';

/** An install check as programs get it. */
export function installToJson({ file, second, check }: Installation): InstallJson {
  const { passed, headline, items } = check;
  return { file, second, passed, headline, items: items.map(itemToJson) };
}

function itemToJson({ cautions = [], ...item }: InstallItem): InstallJson['items'][number] {
  return { ...item, ...(cautions.length === 0 ? {} : { cautions: sayCautions(cautions) }) };
}
