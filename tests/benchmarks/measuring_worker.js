/* Runs in the core's worker: how long each call takes in there, in the order of asking. */
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
    self.took.push(performance.now() - begun);
    send.call(self, message);
  };
}
