import { describe, expect, it } from 'vitest';
import { initialisation } from '../../src/interval/initialisation.js';
import { readOf } from '../support/interval-cases.js';

describe('initialisation', () => {
  it('is the date, with the time where there is one', () => {
    const of = (ea4: string) => initialisation(readOf('to', [ea4]).read);
    expect(of('EA4*240304*0900')).toBe('2024-03-04 09:00:00');
    expect(of('EA4*240304')).toBe('2024-03-04 ');
    expect(of('EA4*000000*0000')).toBeNull();
    expect(of('EA4')).toBeNull();
  });
});
