import { type Finding, makeFinding, printable } from '../findings/index.js';
import { pushAll } from '../model/index.js';
import { type Profile, readProfile } from '../profile/index.js';
import { readWholeFile } from './read-whole-file.js';
import { walkFiles } from './walk-files.js';
import type { Workplace } from './workplace.js';

/** The profiles that could be used, and what is wrong with the others. */
export interface ProfilesReading {
  readonly profiles: readonly Profile[];
  readonly findings: readonly Finding[];
}

/** Read machine profiles: JSON files, or all `.json` files in a folder. Of two with one name the first holds. */
export async function readProfiles(names: readonly string[], workplace: Workplace): Promise<ProfilesReading> {
  const profiles = new Map<string, Profile>();
  const findings: Finding[] = [];
  for await (const { file, problem } of walkFiles(names, workplace)) {
    if (problem !== null) findings.push(problem);
    else if (names.includes(file) || file.endsWith('.json')) {
      const { profile, findings: own } = await readProfileFile(file, workplace);
      pushAll(findings, own);
      if (profile === null) continue;
      if (profiles.has(profile.name)) findings.push(sayRepeated(file, profile.name));
      else profiles.set(profile.name, profile);
    }
  }
  return { profiles: [...profiles.values()], findings };
}

async function readProfileFile(
  file: string,
  workplace: Workplace,
): Promise<{ profile: Profile | null; findings: readonly Finding[] }> {
  const { content, problem } = await readWholeFile(file, workplace);
  return problem === null
    ? readProfile(file, new TextDecoder().decode(content))
    : { profile: null, findings: [problem] };
}

function sayRepeated(file: string, name: string): Finding {
  const message = `${printable(file, 200)} was not used: another profile is named ${printable(name)} already.`;
  return makeFinding('profile-invalid', message, { file });
}
