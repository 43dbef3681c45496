import { expect, it } from 'vitest';
import { ExportError, explainExport } from '../../../src/book/export/export-error.js';

const systemError = (code: string) => Object.assign(new Error(`${code}: it failed`), { code });

it('says in words why an export could not be written, and what became of the folder', () => {
  const full = explainExport(systemError('ENOSPC'), '/out/a\u001b[2J', false) as ExportError;
  expect(full).toBeInstanceOf(ExportError);
  expect(full.message).toBe(
    'The export to /out/a\\x1B[2J could not be written: the disk is full. What was in it is as it was.',
  );
  const begun = explainExport(systemError('EIO'), '/out', true) as ExportError;
  expect(begun.message).toMatch(
    /the disk or network gave an error\. Some days in it are new .* run the same export again/,
  );
  expect((explainExport(systemError('EODD'), '/out', false) as Error).message).toContain('EODD: it failed');
});

it('leaves defects and refusals as they are', () => {
  const defect = new RangeError('x');
  expect(explainExport(defect, '/out', false)).toBe(defect);
});
