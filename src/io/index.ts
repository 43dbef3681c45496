// Io: thin Node faces: files, folders, standard input.
// In: names as the user gave them. Out: what the core makes of their bytes; what can not be read is said as findings.
// Must not know: what is asked of the results, how they are shown. Decides nothing about captures.
export { type CheckFileOptions, checkFile, checkFileInParts, type PartialCheck, READS_A_PART } from './check-file.js';
export { type CheckFilesOptions, checkFiles } from './check-files.js';
export { explainFile } from './explain-file.js';
export { isSystemError, sayUnreadable } from './file-problem.js';
export { fileTime } from './file-time.js';
export { type EarlierOffice, loadOffice, loadSheet, type Office, type OfficeFiles, realPaths } from './load-office.js';
export { readChunks } from './read-chunks.js';
export { type InstallReading, readInstallCapture } from './read-install-capture.js';
export { type ProfilesReading, readProfiles } from './read-profiles.js';
export {
  type RoundFiles,
  type SettledFiles,
  type SettleFilesOptions,
  settleFiles,
  settleFolder,
} from './settle-folder.js';
export { type FolderReading, type TakeFilesOptions, type TakenFile, takeFile, takeFiles } from './take-files.js';
export { isAbandoned, markUnfinished, removeWhenStopped, sweepUnfinished } from './unfinished.js';
export { type FoundFile, walkFiles } from './walk-files.js';
export { currentWorkplace, STANDARD_INPUT, type Workplace } from './workplace.js';
export { reasonNotWritten } from './write-problem.js';
