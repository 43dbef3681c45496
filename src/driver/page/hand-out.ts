/** Give a text to the device's own sharing, else to its clipboard. Resolves to what was done, in words for the person. */
export async function shareText(title: string, text: string): Promise<string> {
  if (typeof navigator.share === 'function') {
    try {
      await navigator.share({ title, text });
      return 'Shared.';
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return '';
    }
  }
  try {
    await navigator.clipboard.writeText(text);
    return 'Copied: paste it where you want it.';
  } catch {
    return copyByHand(text)
      ? 'Copied: paste it where you want it.'
      : 'This browser allows neither sharing nor copying.';
  }
}

/** The old way, for pages that are given no clipboard. */
function copyByHand(text: string): boolean {
  const field = document.createElement('textarea');
  field.value = text;
  field.setAttribute('readonly', '');
  document.body.append(field);
  field.select();
  const isDone = document.execCommand('copy');
  field.remove();
  return isDone;
}

/** Save a text as a file on the device. */
export function saveFile(name: string, type: string, text: string): void {
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The browser takes the file after the click is over.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}
