import * as z from 'zod';
import { type Finding, makeFinding, printable } from '../findings/index.js';
import { type Profile, profileSchema } from './profile.js';

/**
 * A profile from its JSON text. What is wrong with it is said as findings, and then there is no profile.
 *
 * @param file - the file's name, for the findings
 */
export function readProfile(file: string, json: string): { profile: Profile | null; findings: Finding[] } {
  let data: unknown;
  try {
    data = JSON.parse(json);
  } catch (error) {
    return { profile: null, findings: [profileFinding(file, `it is not JSON: ${(error as Error).message}`)] };
  }
  const result = profileSchema.safeParse(data);
  if (result.success) return { profile: result.data, findings: [] };
  return { profile: null, findings: [profileFinding(file, z.prettifyError(result.error))] };
}

function profileFinding(file: string, why: string): Finding {
  return makeFinding('profile-invalid', `The profile was not used: ${printable(why, 300)}`, { file });
}
