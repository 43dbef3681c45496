import { describe, expect, it } from 'vitest';
import { explainFile } from '../../src/io/index.js';
import { Roster } from '../../src/sheets/index.js';
import { buildCapture } from '../support/build-capture.js';
import { makeFolder, workIn } from './temporary-folder.js';

const roster = new Roster();

async function explain(file: string, folder: string) {
  const ids: string[] = [];
  const segments = explainFile(file, { roster }, workIn(folder));
  for (let next = await segments.next(); ; next = await segments.next()) {
    if (next.done) return { ids, findings: next.value.map(({ code, file: of }) => [code, of]) };
    ids.push(next.value.id);
  }
}

describe('explainFile', () => {
  it('gives segments one by one, then what is found about the file', async () => {
    const folder = makeFolder({ 'a.dex': buildCapture(['ID1*S1']), 'b.dex': buildCapture(['ID1*S1'], { dxe: null }) });
    const ids = ['DXS', 'ST', 'ID1', 'G85', 'SE'];
    expect(await explain('a.dex', folder)).toEqual({ ids: [...ids, 'DXE'], findings: [] });
    expect(await explain('b.dex', folder)).toEqual({ ids, findings: [['cut-short', 'b.dex']] });
  });

  it('says what can not be read', async () => {
    expect(await explain('gone.dex', makeFolder())).toEqual({ ids: [], findings: [['unreadable-file', 'gone.dex']] });
  });
});
