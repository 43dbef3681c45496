import { execFileSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { keepHeapSmall } from '../../src/cli/keep-heap-small.js';

describe('keepHeapSmall', () => {
  it('sets what this version of Node knows', () => {
    expect(keepHeapSmall).not.toThrow();
    expect(execFileSync(process.execPath, ['--v8-options'], { encoding: 'utf8' })).toContain('--heap-growing-percent');
  });
});
