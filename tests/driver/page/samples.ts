import { checkCapture, type Verdict } from '../../../src/checks/index.js';
import type { CaptureLine, CaptureView } from '../../../src/driver/desk/messages.js';
import { CABINET_CAUTIONS, sayCautions } from '../../../src/findings/index.js';
import { checkToJson } from '../../../src/report/index.js';
import { buildCapture } from '../../support/build-capture.js';

const AT_CABINET = sayCautions(CABINET_CAUTIONS);

/** A line of the list. */
export function lineOf(id: number, verdict: Verdict, changes: Partial<CaptureLine> = {}): CaptureLine {
  return {
    id,
    file: `${id}.dex`,
    verdict,
    headline: `${{ sound: 'Sound', doubtful: 'Doubtful', 'read-again': 'Read again' }[verdict]}: do this.`,
    machine: `M${id}`,
    clock: '2026-11-24T10:15:00',
    cautions: verdict === 'sound' ? [] : AT_CABINET,
    ...changes,
  };
}

/** Everything of a capture that is damaged. */
export function viewOf(changes: Partial<CaptureView> = {}): CaptureView {
  const bytes = buildCapture(['ID1*S1*M1****A1', 'ID4*2*978*EUR', 'ID5*261124*1015', 'VA1*100*1'], { crc: 'wrong' });
  return {
    id: 0,
    check: checkToJson(checkCapture('0.dex', bytes)),
    cautions: AT_CABINET,
    read: 0,
    readCount: 1,
    columns: [],
    currency: 'EUR',
    decimals: 2,
    between: { intervals: [], findings: [], cautions: [] },
    ...changes,
  };
}
