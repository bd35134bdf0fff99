// The Teach page in the browser: step by step through the story, the moving arm and its cursor, and presenting.
(() => {
  const { arm, stage } = window.levelpeak;
  const { element } = stage;
  const STILL = window.matchMedia('(prefers-reduced-motion: reduce)');
  const SLOWER = [10, 20, 50, 100];
  const END = 1.25;
  const STEP_ON = 0.02; // phases: 3 ms of a usual throw
  const REST_MS = 700; // at the end of the throw, before it is shown again
  const VIEWS = { side: 'side', front: 'front', top: 'top', turn: 'turned' };

  let story = null;
  let shown = null; // what stands on the stage
  let place = 0; // of the step in the story
  let playing = false;
  let notes = null; // the second window
  const stops = new Map(); // of the sliders, by step
  const seen = { name: 'side', turn: 30, tilt: 15 };
  let slower = 50;
  const now = {
    phase: 0,
    get view() {
      return arm.VIEWS[seen.name] ?? seen;
    },
    stop: (picture) => stops.get(story.steps[place].key) ?? picture.slider.start,
  };

  const by = (id) => document.getElementById(id);
  const presenting = () => document.body.classList.contains('presenting');

  // One frame: arm, cursor and words of an instant.
  const render = () => {
    if (!shown?.at) return;
    const { said, torque } = shown.at();
    const input = by('teach-instant');
    if (!input) return;
    input.value = now.phase;
    input.setAttribute('aria-valuetext', `${said}, ${String(Math.round(torque) || 0).replace('-', '\u2212')} N·m`);
    const told = by('teach-when');
    if (told.textContent !== said) told.textContent = said;
  };

  const look = (phase) => {
    now.phase = Math.min(Math.max(phase, 0), END);
    render();
  };

  let last = null;
  let rested = 0;
  const frame = (time) => {
    if (!by('teach-picture')) playing = false; // another page was opened
    if (!playing || !shown?.at) return;
    const passed = last === null ? 0 : Math.min(time - last, 100);
    last = time;
    if (now.phase >= END) {
      rested += passed;
      if (rested > REST_MS) [now.phase, rested] = [0, 0];
    } else look(now.phase + passed / slower / shown.duration_ms());
    requestAnimationFrame(frame);
  };

  const play = (on) => {
    const started = on && !playing && !STILL.matches;
    playing = on && !STILL.matches && Boolean(shown?.at);
    const button = by('teach-play');
    if (button) {
      button.textContent = STILL.matches ? 'Step on' : playing ? 'Pause' : 'Play';
      button.hidden = !shown?.at;
    }
    if (!started || !playing) return;
    if (now.phase >= END) look(0);
    [last, rested] = [null, 0];
    requestAnimationFrame(frame);
  };

  const pressed = () => {
    if (!STILL.matches) return play(!playing);
    look(now.phase >= END ? 0 : now.phase + STEP_ON);
  };

  const range = (label, attributes, onInput, kind = '') => {
    const input = element('input', { type: 'range', 'aria-label': label, ...attributes });
    input.addEventListener('input', () => onInput(Number(input.value)));
    return element('label', { class: `stage-range ${kind}` }, element('span', {}, label), input);
  };

  const choice = (label, options, value, onChange) => {
    const select = element('select', { 'aria-label': label });
    for (const [key, words] of options) select.append(element('option', { value: key }, words));
    select.value = value;
    select.addEventListener('change', () => onChange(select.value));
    return element('label', { class: 'stage-choice' }, element('span', {}, label), select);
  };

  const turned = () => {
    for (const [name, value] of [['turn', seen.turn], ['tilt', seen.tilt]]) {
      const input = by('teach-controls').querySelector(`.is-${name} input`);
      if (input) input.value = value;
    }
    by('teach-controls').classList.toggle('turnable', seen.name === 'turn');
    const chosen = by('teach-controls').querySelector('.is-view select');
    if (chosen) chosen.value = seen.name;
    render();
  };

  // What can be moved in this step.
  const controls = (step) => {
    const made = [];
    const { slider } = step.picture;
    if (slider) {
      const said = element('output', { class: 'stage-said' });
      const tell = (i) => {
        stops.set(step.key, i);
        const { amount, four } = slider.stops[i].said;
        said.replaceChildren(element('strong', {}, amount), ` ${four}`);
        const input = box.querySelector('input');
        input.setAttribute('aria-valuetext', `${amount}: ${four}`);
      };
      const box = range(slider.label, { min: 0, max: slider.stops.length - 1, step: 1, id: 'teach-slide' }, (i) => {
        tell(i);
        shown.redraw();
        render();
      }, 'is-slide');
      box.querySelector('input').value = now.stop(step.picture);
      tell(now.stop(step.picture));
      made.push(element('div', { class: 'stage-row' }, box, said));
    }
    if (step.picture.note) made.push(element('p', { class: 'stage-note' }, step.picture.note));
    if (step.picture.kind === 'curves') {
      const instant = range('Instant', { min: 0, max: END, step: 0.005, id: 'teach-instant' }, (phase) => {
        play(false);
        look(phase);
      }, 'is-instant');
      const slow = choice('Slowed to', SLOWER.map((n) => [n, `1/${n}`]), slower, (value) => (slower = Number(value)));
      const view = choice('Seen from', Object.entries(VIEWS), seen.name, (name) => {
        seen.name = name;
        turned();
      });
      view.classList.add('is-view');
      const turn = range('Turn', { min: -180, max: 180, step: 5 }, (value) => (seen.turn = value, render()), 'is-turn');
      const tilt = range('Tilt', { min: -30, max: 90, step: 5 }, (value) => (seen.tilt = value, render()), 'is-tilt');
      made.push(element('div', { class: 'stage-row' }, instant, slow, view, turn, tilt));
    }
    by('teach-controls').replaceChildren(...made);
    turned();
  };

  // Drag the curve's cursor; drag the thrower round.
  const draggable = () => {
    if (!shown.at) return;
    const { left, right } = shown;
    const goTo = (event) => look(shown.toPhase(event.clientX - right.getBoundingClientRect().left));
    right.addEventListener('pointerdown', (event) => {
      right.setPointerCapture(event.pointerId);
      play(false);
      goTo(event);
    });
    right.addEventListener('pointermove', (event) => right.hasPointerCapture(event.pointerId) && goTo(event));
    left.addEventListener('pointerdown', (event) => {
      left.setPointerCapture(event.pointerId);
      if (seen.name !== 'turn') Object.assign(seen, { ...now.view, name: 'turn' });
    });
    left.addEventListener('pointermove', (event) => {
      if (!left.hasPointerCapture(event.pointerId)) return;
      seen.turn = ((seen.turn - event.movementX * 0.6 + 540) % 360) - 180;
      seen.tilt = Math.min(Math.max(seen.tilt + event.movementY * 0.4, -30), 90);
      turned();
    });
  };

  const noted = () => {
    const step = story?.steps[place];
    by('teach-notes').innerHTML = step?.notes ?? ''; // the server's own, every text in it escaped
    if (!notes || notes.closed) return;
    const title = element('h1', {}, `${place + 1} of ${story.steps.length}: ${step.title}`);
    const text = element('div', { class: 'teach-notes' });
    text.innerHTML = step.notes;
    const next = story.steps[place + 1];
    notes.document.body.replaceChildren(title, text, element('p', { class: 'quiet' }, `${next ? `Next: ${next.title}` : 'The last step'}. The arrow keys turn the steps here too.`));
  };

  const show = (to) => {
    if (!story?.steps.length || !by('teach-picture')) return;
    const wasPlaying = playing;
    play(false);
    shown = null;
    place = Math.min(Math.max(to, 0), story.steps.length - 1);
    const step = story.steps[place];
    by('teach-title').textContent = step.title;
    by('teach-count').textContent = `${place + 1} / ${story.steps.length}`;
    by('teach-words').innerHTML = step.sentences.map((words) => `<p>${words}</p>`).join(''); // the server's own, escaped
    by('teach-stage').dataset.step = step.key;
    for (const [id, off] of [['teach-back', place === 0], ['teach-on', place === story.steps.length - 1]]) {
      by(id).setAttribute('aria-disabled', off);
    }
    by('teach-stage').scrollTop = 0; // on a phone it is higher than the window
    by('teach-picture').replaceChildren();
    by('teach-when').textContent = '';
    controls(step); // before the picture, which takes the room that is left
    shown = stage.put(by('teach-picture'), step, story.figure, now);
    draggable();
    render();
    noted();
    watch();
    play(presenting() || wasPlaying);
  };

  // Another size or theme: all is drawn anew, unless the page was made anew and its picture is still to come.
  const again = () => {
    if (!shown || !by('teach-picture')?.firstElementChild) return;
    shown.redraw();
    render();
  };
  const resized = new ResizeObserver(again);
  const watch = () => {
    resized.disconnect();
    by('teach-picture').querySelectorAll('.pane').forEach((pane) => resized.observe(pane));
  };
  new MutationObserver(again).observe(document.documentElement, { attributeFilter: ['data-theme'] });
  STILL.addEventListener('change', () => play(false));

  // The browser enters and leaves the full screen after a while: who presents again at once waits until it has left,
  // and is not sent away by the news of it.
  let left = Promise.resolve();
  let leaving = false;
  const fill = () => left.then(() => presenting() && document.documentElement.requestFullscreen?.()).catch(() => {}); // where it is refused, the window is filled
  const unfill = () => {
    leaving = Boolean(document.fullscreenElement);
    if (leaving) left = document.exitFullscreen().catch(() => { leaving = false; });
  };
  const filled = () => {
    if (document.fullscreenElement) {
      if (!presenting()) unfill();
    } else if (leaving) leaving = false;
    else if (presenting()) present(false);
  };

  const present = (on) => {
    document.body.classList.toggle('presenting', on);
    if (on) fill();
    else unfill();
    by('teach-stage').focus();
    again();
    play(on);
  };

  const open = () => {
    notes = window.open('', 'levelpeak-notes', 'width=640,height=800');
    if (!notes) return;
    notes.document.title = 'Notes · Levelpeak';
    notes.document.documentElement.dataset.theme = document.documentElement.dataset.theme;
    notes.document.head.replaceChildren(...[...document.querySelectorAll('link[rel=stylesheet]')].map((link) => element('link', { rel: 'stylesheet', href: link.href })));
    notes.document.body.className = 'notes-window';
    notes.onkeydown = ({ key }) => {
      const to = { ArrowRight: 1, PageDown: 1, ArrowLeft: -1, PageUp: -1 }[key];
      if (to && story) show(place + to);
    };
    noted();
  };

  const BUTTONS = {
    'teach-back': () => show(place - 1),
    'teach-on': () => show(place + 1),
    'teach-play': pressed,
    'teach-present': () => present(true),
    'teach-leave': () => present(false),
    'teach-window': open,
    'teach-print': () => window.print(),
  };
  addEventListener('click', ({ target }) => BUTTONS[target.closest?.('button')?.id]?.());
  document.addEventListener('fullscreenchange', filled);
  addEventListener('popstate', () => {
    document.body.classList.remove('presenting');
    unfill();
  });

  // A hand-held remote sends these two; the arrow keys are the shell's, as the list of keys says.
  addEventListener('keydown', (event) => {
    if (!presenting() || document.querySelector('dialog[open]')) return; // then Escape closes that alone
    const to = { PageDown: 1, PageUp: -1 }[event.key];
    if (event.key === 'Escape') present(false);
    else if (to) {
      event.preventDefault();
      show(place + to);
    }
  });

  const PAPER = { width: 700, height: 215, em: 11 };
  const handout = () => {
    by('teach-handout').innerHTML = story.handout; // likewise
    by('teach-handout').querySelectorAll('[data-picture]').forEach((box) => {
      stage.onPaper(box, story.sheet[box.dataset.picture], story.figure, { ...PAPER, height: Number(box.dataset.height) });
    });
  };

  window.levelpeak.callbacks({
    teach: {
      // The page stands a frame or two after its story has come.
      story(sent) {
        const key = story?.steps?.[place]?.key;
        story = sent?.steps?.length ? sent : null;
        const still = window.levelpeak.still;
        if (!story) {
          play(false);
          shown = null;
          return still;
        }
        if (now.phase === 0) now.phase = story.figure.rotation_phase;
        stops.clear();
        const kept = story.steps.findIndex((step) => step.key === key);
        const told = sent;
        let frames = 90;
        const begin = () => {
          if (story !== told) return;
          if (!by('teach-handout')) {
            if (frames-- > 0) requestAnimationFrame(begin);
            return;
          }
          handout();
          show(kept < 0 ? Math.min(place, story.steps.length - 1) : kept);
        };
        requestAnimationFrame(() => requestAnimationFrame(begin));
        return still;
      },
    },
  });
})();
