import type { SentFile } from '../desk/messages.js';

/** Files as chosen, with the folder they lay in where the browser tells it. */
export function nameFiles(files: readonly File[]): SentFile[] {
  return files.map((file) => ({ file, path: file.webkitRelativePath || file.name }));
}

/** What is used of an entry of a drop: a file, or a folder that is read in portions. */
export interface DroppedEntry {
  readonly isDirectory: boolean;
  readonly name: string;
  readonly file?: (take: (file: File) => void, fail: () => void) => void;
  readonly createReader?: () => {
    readonly readEntries: (take: (entries: readonly DroppedEntry[]) => void, fail: () => void) => void;
  };
}

/** What a drop holds, taken at once: the browser forgets it when the event is over. */
export interface Dropped {
  readonly entries: readonly DroppedEntry[];
  readonly files: readonly File[];
}

/** Take what was dropped. Folders come as entries; without any, the plain list of files is less work. */
export function takeDrop(transfer: DataTransfer): Dropped {
  const entries = [...transfer.items].flatMap((item) => (item.webkitGetAsEntry?.() as DroppedEntry | null) ?? []);
  return { entries: entries.some(({ isDirectory }) => isDirectory) ? entries : [], files: [...transfer.files] };
}

/** All files of a drop, folders however deep. A folder that can not be read gives none. */
export async function collectDropped({ entries, files }: Dropped): Promise<SentFile[]> {
  if (entries.length === 0) return nameFiles(files);
  const found: SentFile[] = [];
  for (const entry of entries) await walk(entry, '', found);
  return found;
}

async function walk(entry: DroppedEntry, folder: string, found: SentFile[]): Promise<void> {
  const path = `${folder}${entry.name}`;
  if (!entry.isDirectory) {
    const file = await new Promise<File | null>((take) => entry.file?.(take, () => take(null)) ?? take(null));
    if (file !== null) found.push({ file, path });
    return;
  }
  const reader = entry.createReader?.();
  for (;;) {
    // A portion at a time; an empty one is the end.
    const portion = await new Promise<readonly DroppedEntry[]>(
      (take) => reader?.readEntries(take, () => take([])) ?? take([]),
    );
    if (portion.length === 0) return;
    for (const each of portion) await walk(each, `${path}/`, found);
  }
}
