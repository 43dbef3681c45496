import { CHECK_TABLE, ChecksReport, checkRows, checkToJson, type PartialCheck } from '../index.js';
import { csvView, type View } from './printer.js';

/**
 * How checks of captures are printed.
 *
 * @param showsSound - whether the text shows sound captures too, and does not only count them
 */
export function checksView(showsSound: boolean): View<PartialCheck> {
  return {
    toJson: checkToJson,
    csv: csvView(CHECK_TABLE, checkRows),
    text: (style) => new ChecksReport(style, showsSound),
  };
}
