// A file that is brought to the records: sent by an address of its own, since it may be large, looked at, then kept or left.
(() => {
  const IN = '/records/in';
  const place = () => document.getElementById('keeping-preview');
  const say = (words) => {
    const line = document.getElementById('keeping-progress');
    if (line) line.textContent = words;
  };
  let token = '';

  // Not by `fetch`: only so is told how much of a large file is sent.
  const post = (name, body, sending) =>
    new Promise((resolve) => {
      const asking = new XMLHttpRequest();
      asking.open('POST', `${IN}/${name}`);
      asking.upload.addEventListener('progress', ({ loaded, total }) => sending?.(loaded, total));
      asking.addEventListener('loadend', () => {
        let answer = {};
        try {
          answer = JSON.parse(asking.responseText);
        } catch {
          answer = { reason: 'Levelpeak does not answer. If it was ended in the terminal, start it again.' };
        }
        resolve({ ok: asking.status === 200, ...answer });
      });
      body.append('token', token);
      asking.send(body);
    });

  // While the server works on a file, how far it has come.
  const watched = async (work) => {
    const look = setInterval(async () => {
      const asking = new XMLHttpRequest();
      asking.open('GET', `${IN}/progress?token=${token}`);
      asking.addEventListener('load', () => {
        const { words } = JSON.parse(asking.responseText);
        if (words) say(words);
      });
      asking.send();
    }, 400);
    try {
      return await work;
    } finally {
      clearInterval(look);
    }
  };

  const show = (answer, focus) => {
    if (!place()) return;
    say(answer.ok ? '' : answer.reason);
    if (!answer.ok) return;
    place().innerHTML = answer.html;
    const again = focus && [...place().querySelectorAll('[name]')].find(({ name }) => name === focus);
    (again ?? place().querySelector('button'))?.focus();
  };

  const form = () => {
    const said = new FormData();
    for (const field of place().querySelectorAll('[name]')) {
      if (field.type !== 'checkbox' || field.checked) said.append(field.name, field.value);
    }
    return said;
  };

  const bring = async (file) => {
    token = crypto.randomUUID?.() ?? Array.from(crypto.getRandomValues(new Uint8Array(16)), (one) => one.toString(16).padStart(2, '0')).join('');
    place().replaceChildren();
    say(`Sending ${file.name}.`);
    const body = new FormData();
    body.append('file', file);
    const sending = (sent, all) => say(sent < all ? `Sending: ${Math.floor((100 * sent) / all)} %` : 'Reading the file.');
    show(await watched(post('bring', body, sending)));
  };

  const finish = async (act) => {
    say(act === 'take' ? 'Keeping it.' : '');
    const answer = await watched(post(act, new FormData()));
    if (!answer.ok) return say(answer.reason);
    place()?.replaceChildren();
    window.levelpeak.set('bind-refresh', { data: { said: answer.said, focus: 'keeping-file', at: Date.now() } });
  };

  document.addEventListener('change', async ({ target }) => {
    if (target.id === 'keeping-file' && target.files.length) {
      const [file] = target.files;
      target.value = ''; // so that the same file can be chosen again
      await bring(file);
    } else if (target.name && place()?.contains(target)) {
      show(await watched(post('look', form())), target.name);
    }
  });

  document.addEventListener('click', ({ target }) => {
    const act = target.closest?.('#keeping-preview [data-do]')?.dataset.do;
    if (act) finish(act);
  });

  window.levelpeak.callbacks({
    keeping: {
      // The field for a file, which no component is: it is not sent with the page's questions.
      ready() {
        const around = document.getElementById('keeping-file-place');
        if (!around || around.firstChild) return 'false';
        const field = document.createElement('input');
        Object.assign(field, { type: 'file', id: 'keeping-file', accept: '.json,.csv,.txt' });
        around.append(field);
        return 'false';
      },

      initials(text) {
        window.levelpeak.cookie('levelpeak-initials', (text ?? '').trim());
        return text?.trim() ? 'Kept in this browser.' : 'The history is kept without initials.';
      },
    },
  });
})();
