// Installs what package-lock.json asks for when it is not there yet, so that `npm test` and `npm run demo` work right
// after a clone. Quick and silent when there is nothing to do.
import { execFileSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';

const installed = 'node_modules/.package-lock.json';
const wanted = 'package-lock.json';

if (!existsSync(installed) || statSync(installed).mtimeMs < statSync(wanted).mtimeMs) {
  execFileSync('npm', ['ci', '--no-audit', '--no-fund'], {
    stdio: ['ignore', 'inherit', 'inherit'],
    shell: process.platform === 'win32',
  });
}
