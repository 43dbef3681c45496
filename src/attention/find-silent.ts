import { DEVICES, isReporting } from '../checks/devices.js';
import { type Finding, makeFinding } from '../findings/index.js';
import type { MachineDay } from './machine-day.js';

/**
 * Devices that reported at the read before and do not at the last one of the day: a check that knows neither roster nor
 * earlier reads cannot say so. Those that a check names already are left out.
 */
export function findSilentDevices({ intervals, reads, name }: MachineDay): Finding[] {
  const last = intervals.at(-1);
  if (last === undefined) return [];
  const named = new Set(reads.flatMap(({ findings }) => findings.map(({ code, segment }) => `${code} ${segment}`)));
  const { from, to } = last;
  return DEVICES.filter((device) => isReporting(device, from.read) && !isReporting(device, to.read))
    .filter(({ oneOf }) => !named.has(`device-missing ${oneOf[0]}`))
    .map((device) =>
      makeFinding(
        'device-missing',
        `The ${device.name} has gone silent: it reported in ${from.file}, and does not now.`,
        {
          file: to.file,
          read: to.read.number,
          segment: device.oneOf[0]!,
          ...(name.row === null ? {} : { machine: name.row.machine }),
          related: [{ file: from.file, read: from.read.number, segment: device.oneOf[0]! }],
        },
      ),
    );
}
