import { describe, expect, it } from 'vitest';
import { baseDetail } from '../../src/interval/interval-finding.js';
import { pairOf } from '../support/interval-cases.js';

describe('baseDetail', () => {
  const pair = pairOf(['VA1*100*1', 'PA1*11*100', 'PA2*1*100'], ['VA1*200*2', 'PA1*11*100', 'PA2*2*200', 'PA1*12*90']);

  it('is the place in the later read, with that in the earlier beside it', () => {
    const detail = baseDetail(pair, 'VA101');
    expect(detail).toMatchObject({ file: 'to.dex', segment: 'VA1', element: 'VA101' });
    expect(detail.related).toMatchObject([{ file: 'from.dex', element: 'VA101' }]);
  });

  it('names the column, also where a read does not have it', () => {
    const detail = baseDetail(pair, 'PA201', '12');
    expect(detail).toMatchObject({ file: 'to.dex', column: '12' });
    expect(detail.related).toEqual([{ file: 'from.dex', read: 0, segment: 'PA2', element: 'PA201', column: '12' }]);
  });
});
