/* A file made here, handed to where the person wants it. */

/** Offer a text as a file: saved, or with `share`, where the phone can, handed to another app. */
export async function saveFile(name, text, type, { share = false } = {}) {
  const file = new File([text], name, { type });
  if (share && navigator.canShare?.({ files: [file] })) {
    // who thinks better of it wants no file
    await navigator.share({ files: [file] }).catch((error) => error.name === 'AbortError' || Promise.reject(error));
    return;
  }
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = name;
  link.click();
  URL.revokeObjectURL(link.href);
}
