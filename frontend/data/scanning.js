/* Reading a pairing code with the camera: the browser's own detector, or one that is fetched. */

const LOOK_EVERY_MS = 250;

/** Whether this page may ask for a camera at all. */
export const canScan = Boolean(navigator.mediaDevices?.getUserMedia);

/** Show the back camera in a video element and resolve to the first text read; null once stopped. */
export async function scan(video, stopped) {
  const stream = await camera();
  const close = () => stream.getTracks().forEach((track) => track.stop());
  // it may have been left while the camera was asked for
  if (stopped.aborted) {
    close();
    return null;
  }
  stopped.addEventListener('abort', close);
  video.srcObject = stream;
  const [detector] = await Promise.all([makeDetector(), video.play()]);
  while (!stopped.aborted) {
    const [found] = await detector.detect(video).catch(() => []);
    if (found?.rawValue) return found.rawValue;
    await new Promise((resolve) => setTimeout(resolve, LOOK_EVERY_MS));
  }
  return null;
}

async function camera() {
  try {
    return await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } });
  } catch (error) {
    const why = error.name === 'NotAllowedError' ? 'The camera may not be used here' : 'No camera could be opened';
    throw new Error(`${why}: type the code instead`, { cause: error });
  }
}

async function makeDetector() {
  const known = (await globalThis.BarcodeDetector?.getSupportedFormats()) ?? [];
  const Detector = known.includes('qr_code') ? BarcodeDetector : (await fetched()).BarcodeDetector;
  return new Detector({ formats: ['qr_code'] });
}

// pairing needs the server anyway: this one is not kept for offline
function fetched() {
  return import('qr').catch(() => {
    throw new Error('The code cannot be read without the server: type it instead');
  });
}
