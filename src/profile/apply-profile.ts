import type { Finding } from '../findings/index.js';
import type { Profile } from './profile.js';

/** The profile that holds for a machine: the one the roster names, else the first whose models include this one. */
export function chooseProfile(
  profiles: readonly Profile[],
  named: string | null,
  model: string | null,
): Profile | null {
  if (named !== null) return profiles.find((profile) => profile.name === named) ?? null;
  if (model === null) return null;
  return profiles.find((profile) => profile.models?.includes(model)) ?? null;
}

/** The findings with the weights that a profile gives them. */
export function weighFindings(findings: readonly Finding[], profile: Profile | null): readonly Finding[] {
  const severities = profile?.severities;
  if (severities === undefined) return findings;
  return findings.map((finding) => {
    const severity = severities[finding.code];
    return severity === undefined || severity === finding.severity ? finding : { ...finding, severity };
  });
}

/**
 * Where a counter starts again: its modulus 10^digits when the profile says, else null.
 *
 * @param element - element name, such as `PA202`
 */
export function rollOverModulus(profile: Profile | null, element: string): number | null {
  const digits = profile?.rollOverDigits;
  const own = typeof digits === 'number' ? digits : digits?.[element];
  return own === undefined ? null : 10 ** own;
}
