/* Runs in the core's worker: when each call begins and how long it takes in there, in the order of asking. */
() => {
  const answer = self.onmessage;
  const send = self.postMessage;
  let begun = 0;
  self.took = [];
  self.onmessage = (event) => {
    begun = performance.now();
    return answer(event);
  };
  self.postMessage = (message) => {
    self.took.push({ from: performance.timeOrigin + begun, ms: performance.now() - begun });
    send.call(self, message);
  };
}
