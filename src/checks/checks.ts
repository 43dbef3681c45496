import { charactersCheck } from './characters.js';
import type { Check } from './check.js';
import { clockCheck, clockJumpCheck } from './clock.js';
import { controlNumberCheck } from './control-number.js';
import { crossTotalsCheck } from './cross-totals.js';
import { currencyCheck } from './currency.js';
import { cutShortCheck } from './cut-short.js';
import { devicesCheck } from './devices.js';
import { eventsCheck } from './events.js';
import { integrityCheck } from './integrity.js';
import { loopsCheck } from './loops.js';
import { machineCheck } from './machine.js';
import { malformedCheck } from './malformed.js';
import { placementCheck } from './placement.js';
import { pricesCheck } from './prices.js';
import { signalCheck } from './reception.js';
import { requiredSegmentsCheck } from './required-segments.js';
import { segmentCountCheck } from './segment-count.js';
import { tubesCheck } from './tubes.js';
import { unknownSegmentsCheck } from './unknown-segments.js';

/** Every check of one read, in the order in which findings of one weight are told: the capture first, then the machine. */
export const CHECKS: readonly Check[] = [
  cutShortCheck,
  integrityCheck,
  signalCheck,
  requiredSegmentsCheck,
  machineCheck,
  malformedCheck,
  segmentCountCheck,
  controlNumberCheck,
  placementCheck,
  loopsCheck,
  charactersCheck,
  devicesCheck,
  eventsCheck,
  clockCheck,
  clockJumpCheck,
  tubesCheck,
  pricesCheck,
  currencyCheck,
  crossTotalsCheck,
  unknownSegmentsCheck,
];
