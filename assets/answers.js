// What the pages ask the server, and its answers: told when they fail, waited for, and shown in the order of asking.
(() => {
  const ask = window.fetch;
  const MOST_BYTES = 2 * 1024 * 1024; // of one question: LARGEST_REQUEST_BYTES of app/web/server.py

  const tell = (reason) =>
    window.levelpeak.set('shell-notice', {
      sendNotifications: [
        {
          action: document.getElementById('no-answer') ? 'update' : 'show', // one that stands is not shown again
          id: 'no-answer',
          title: 'Not changed',
          message: `${reason} Everything you entered is still there.`,
          color: 'gray',
          autoClose: false,
          closeButtonProps: { 'aria-label': 'Close' },
        },
      ],
    });

  const tooMuch = (body) => {
    const [given, most] = [new Blob([body ?? '']).size, MOST_BYTES].map((bytes) => Math.round(bytes / 1000));
    return `That was more than Levelpeak takes at once. ${given} kB given; accepted: up to ${most} kB.`;
  };

  // A question that gets no answer, or a refusal, would otherwise show in the console alone.
  const told = async (question) => {
    try {
      const answer = await ask(...question);
      if (answer.status === 413) tell(tooMuch(question[1]?.body));
      else if (!answer.ok) tell('Levelpeak could not work this out; its log, in the terminal, says why.');
      return answer;
    } catch (error) {
      tell('Levelpeak does not answer. If it was ended in the terminal, start it again.');
      throw error;
    }
  };

  // The renderer forgets a question once the same callback asks a newer one, but not where the callback writes controls
  // found by a pattern (it takes these for controls that came or went). A slow older answer then stood over a newer one.
  // Here each answer waits until the one asked before it was read.
  const writesByPattern = (body) => {
    const outputs = typeof body === 'string' ? body.match(/"output":"((?:[^"\\]|\\.)*)"/)?.[1] : undefined;
    return outputs?.includes('[\\"ALL\\"]') ? outputs : undefined;
  };
  const queue = new Map(); // for each such callback, when the answer to its newest question was read

  const inOrder = async (question) => {
    const asker = writesByPattern(question[1]?.body);
    if (!asker) return told(question);
    const before = queue.get(asker);
    let read;
    queue.set(asker, new Promise((resolve) => { read = () => setTimeout(resolve); }));
    try {
      const answer = await told(question);
      await before;
      if (answer.status === 200) answer.json = () => Response.prototype.json.call(answer).finally(read);
      else read();
      return answer;
    } catch (error) {
      read();
      throw error;
    }
  };

  // What was changed in a field is kept before a button acts on it, what a button did before the next field, and a page is
  // made anew from both: as the hand did it, whichever the server would have got first. Only fields do not wait for fields.
  const KINDS = [
    ['page', /^bind-refresh\./],
    ['act', /"type":"(act|pick)"|^bind-(undo|redo)\./],
    ['edit', /"type":"(field|flag|mine|mine-flag)"|^bind-typed\./],
  ];
  const underWay = new Map();
  const leaving = new Promise((resolve) => addEventListener('pagehide', resolve)); // what waits then is sent at once

  const PATIENCE_MS = 500; // for a page that comes out as it was
  const drawn = () => new Promise((resolve) => {
    const watch = new MutationObserver(() => resolve(watch.disconnect()));
    watch.observe(document.getElementById('shell-main'), { childList: true, subtree: true });
    setTimeout(() => resolve(watch.disconnect()), PATIENCE_MS);
  });

  const asDone = async (question) => {
    const body = question[1]?.body;
    const escaped = typeof body === 'string' ? body.match(/"changedPropIds":\["((?:[^"\\]|\\.)*)"/)?.[1] : undefined;
    const asker = escaped ? JSON.parse(`"${escaped}"`) : '';
    const kind = KINDS.find(([, ids]) => ids.test(asker))?.[0];
    if (!kind) return inOrder(question);
    const before = [...underWay].filter(([, other]) => kind !== 'edit' || other !== 'edit').map(([asked]) => asked);
    const asked = (async () => {
      if (before.length) await Promise.race([Promise.allSettled(before), leaving]);
      if (kind === 'edit') dispatchEvent(new CustomEvent('edit-asked', { detail: asker.slice(0, asker.lastIndexOf('.')) }));
      return inOrder(question);
    })();
    const done = kind === 'page' ? asked.then(drawn) : asked;
    underWay.set(done, kind);
    Promise.allSettled([done]).then(() => underWay.delete(done));
    return asked;
  };

  let open = 0; // questions without an answer yet
  let answered = -Infinity; // when the last answer came
  window.fetch = async (...question) => {
    open += 1;
    try {
      return await asDone(question);
    } finally {
      open -= 1;
      answered = performance.now();
    }
  };

  // Until what was just changed stands on the screen: all is answered, and was long enough to be drawn.
  const DRAWN_MS = 100;
  const settled = async () => {
    while (open > 0 || performance.now() - answered < DRAWN_MS) await new Promise((wake) => setTimeout(wake, 20));
  };
  Object.assign(window.levelpeak, { settled, tell });
})();
