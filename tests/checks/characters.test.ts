import { expect, it } from 'vitest';
import { charactersCheck } from '../../src/checks/characters.js';
import { CaptureReader, type Read } from '../../src/read/index.js';
import { buildTransmission } from '../support/build-capture.js';
import { changeSegments, checkCases, PLAIN_CONTEXT } from '../support/check-cases.js';

const LONG = `ZZ1*${'x'.repeat(70_000)}`;

checkCases('characters', charactersCheck, {
  clean: [
    { name: 'spaces and filler at the end of a line', segments: changeSegments({ add: ['ZZ1*1  \u0000\u001a'] }) },
    { name: 'a long but allowed line', segments: changeSegments({ add: [LONG.slice(0, 65_000)] }) },
  ],
  failing: [
    {
      name: 'control characters',
      segments: changeSegments({ add: ['ZZ1*\u001b[31m', 'ZZ1*\u0007'] }),
      code: 'control-character',
      severity: 'note',
      message: /^2 lines hold control characters/,
      at: { line: 23 },
    },
    {
      name: 'an overlong line',
      segments: changeSegments({ add: [LONG] }),
      code: 'overlong-element',
      severity: 'doubt',
      message: /^A line is longer than allowed: 4468 bytes of it were passed over\.$/,
      at: { segment: 'ZZ1' },
    },
  ],
});

it('says it of the read whose line it is, where several share a block', () => {
  const reads: Read[] = [];
  const reader = new CaptureReader();
  const keep = (read: Read): void => {
    reads.push(read);
  };
  const set = ['ID1*S', 'ZZ1*\u0007'];
  reader.push(buildTransmission([{ segments: ['ID1*S'] }, { segments: set }, { segments: ['ID1*S'] }]), keep);
  reader.end(keep);
  expect(reads.map((read) => charactersCheck.run(read, PLAIN_CONTEXT).length)).toEqual([0, 1, 0]);
});
