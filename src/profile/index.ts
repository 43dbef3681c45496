// Profile: how a maker, model or machine departs from the standard.
// In: JSON. Out: a checked profile, and what it changes. Must not know: captures, reads.
export { chooseProfile, rollOverModulus, weighFindings } from './apply-profile.js';
export { type Profile, profileSchema } from './profile.js';
export { readProfile } from './read-profile.js';
