import { describe, expect, it } from 'vitest';
import { currentWorkplace } from '../../src/io/index.js';
import { pathOf } from '../../src/io/workplace.js';
import { workIn } from './temporary-folder.js';

describe('a workplace', () => {
  it('is where relative paths start from', () => {
    expect(pathOf('in/a.dex', workIn('/data'))).toMatch(/^(?:[A-Z]:)?[\\/]data[\\/]in[\\/]a\.dex$/);
    expect(currentWorkplace()).toEqual({ cwd: process.cwd(), stdin: process.stdin });
  });
});
