// The floor: what any run has to do, reading every file of a folder and taking its SHA-256.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const [folder] = process.argv.slice(2);
let bytes = 0;
for (const entry of readdirSync(folder!, { recursive: true, withFileTypes: true })) {
  if (!entry.isFile()) continue;
  const content = readFileSync(join(entry.parentPath, entry.name));
  createHash('sha256').update(content).digest('hex');
  bytes += content.length;
}
console.log(bytes);
