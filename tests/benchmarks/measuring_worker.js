/* Runs in the core's worker: how long after the page asked each call is answered, in the order of answering. */
() => {
  const receive = self.onmessage;
  const send = self.postMessage;
  const asked = new Map();
  const now = () => performance.timeOrigin + performance.now();
  self.took = [];
  self.onmessage = (event) => {
    // what is asked ahead nobody waits for
    if (event.data.text) asked.set(event.data.id, event.data.sent);
    return receive(event);
  };
  self.postMessage = (message) => {
    const from = asked.get(message.id);
    if (from) self.took.push({ from, ms: now() - from });
    send.call(self, message);
  };
};
