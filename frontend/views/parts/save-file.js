/* A file made here, handed to where the person wants it. */
import { say, saying } from './notice.js';

/** Offer a text as a file: saved, or with `share`, where the phone can, handed to another app. Resolves to whether it was taken. */
export async function saveFile(name, text, type, { share = false } = {}) {
  const file = new File([text], name, { type });
  if (share && navigator.canShare?.({ files: [file] })) {
    const failed = await navigator.share({ files: [file] }).catch((error) => error);
    if (!failed) return true;
    // who thinks better of it wants no file; where it was made for too long after the tap, it is saved
    if (failed.name === 'AbortError') return false;
    if (failed.name !== 'NotAllowedError') throw failed;
  }
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = name;
  link.click();
  URL.revokeObjectURL(link.href);
  return true;
}

/** Make a file, [name, text, type], and hand it on; `said` once it was taken. */
export const shareFile = (said, make) => saying('', async () => (await saveFile(...(await make()), { share: true })) && say(said));
