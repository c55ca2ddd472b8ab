/* Installing on this phone: the browser's own offer where it makes one, else the steps by hand. */

/** Whether this is the installed app. */
export const installed = () => matchMedia('(display-mode: standalone)').matches || navigator.standalone === true;

/** Whether the browser offers to install it now; `app.js` hears of it. */
export const offered = () => Boolean(self.installOffer);

/** Be told when that changes; returns the way to stop. */
export function onOffer(listener) {
  addEventListener('installoffer', listener);
  return () => removeEventListener('installoffer', listener);
}

/** Take the browser's offer: it asks the person. An offer is good once. */
export async function install() {
  const offer = self.installOffer;
  self.installOffer = null;
  await offer.prompt();
}

// a tablet of theirs says that it is a computer, but has a touch screen
const isApples = /iPhone|iPad/.test(navigator.userAgent) || (/Macintosh/.test(navigator.userAgent) && navigator.maxTouchPoints > 1);

/** The steps by hand, in words. */
export function byHand() {
  return isApples ? 'tap Share, then Add to Home Screen' : "in the browser's menu, choose Install app or Add to Home screen";
}
