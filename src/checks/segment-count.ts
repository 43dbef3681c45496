import { ELEMENT } from '../dictionary/index.js';
import { makeFinding } from '../findings/index.js';
import { type Check, NOTHING } from './check.js';
import { READ_AGAIN } from './wording.js';

/** Holds the number of segments that SE states against those that came. */
export const segmentCountCheck: Check = {
  codes: ['segment-count'],
  summary: 'Whether as many segments came as SE says, ST and SE included.',
  reference: 'ANSI X12: SE01 counts the segments from ST to SE, both included',
  run(read) {
    const { stated, counted } = read.segments;
    if (stated === counted || !read.isComplete) return NOTHING;
    const text = read.text(ELEMENT.SE01);
    // What is no number is told as that.
    if (stated === null && text !== null) return NOTHING;
    const what =
      stated === null
        ? `SE does not say how many segments there are; ${counted} came.`
        : `SE says ${stated} segments, but ${counted} came: ${Math.abs(stated - counted)} ${stated > counted ? 'are missing' : 'too many'}.`;
    return [
      makeFinding('segment-count', what, {
        ...read.place(ELEMENT.SE01),
        expected: String(counted),
        received: text ?? 'nothing',
        advice: READ_AGAIN,
      }),
    ];
  },
};
