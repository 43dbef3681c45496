import type { InstallItem } from '../../checks/index.js';
import { sayCautions } from '../../findings/index.js';
import type { Installation } from '../installation.js';
import { csvText } from './csv.js';
import type { CsvTable } from './csv-table.js';

/** One row of {@link INSTALL_TABLE}. */
export interface InstallRow {
  readonly installation: Installation;
  readonly item: InstallItem;
}

/** The rows of an install check: one a point. */
export function installRows(installation: Installation): InstallRow[] {
  return installation.check.items.map((item) => ({ installation, item }));
}

/** One row a point that was looked at. */
export const INSTALL_TABLE: CsvTable<InstallRow> = {
  columns: [
    ['file', ({ installation }) => csvText(installation.file)],
    ['second', ({ installation }) => csvText(installation.second)],
    ['point', ({ item }) => item.id],
    ['what', ({ item }) => csvText(item.what)],
    ['state', ({ item }) => item.state],
    ['detail', ({ item }) => csvText(item.detail)],
    ['advice', ({ item }) => csvText(item.advice)],
    ['cautions', ({ item }) => csvText(sayCautions(item.cautions ?? []).join(' ') || null)],
  ],
};
