// The Athlete page's part in the browser: typing readings by one key each, tables pasted into a cell, the Compare form
// where the browser keeps it, the figure on paper, and the pocket card.
(() => {
  const NARROW = window.matchMedia('(max-width: 640px)');
  const KEPT = 'compare-saved'; // the Compare page's store: what reads and writes it here is its entry in the browser
  const CELLS = '.ball-cells input';

  NARROW.addEventListener('change', (event) => {
    if (document.querySelector('.athlete')) window.dash_clientside.set_props('athlete-narrow', { data: event.matches });
  });

  const isCell = (element) => element instanceof HTMLInputElement && Boolean(element.dataset.at);
  const every = () => [...document.querySelectorAll('.athlete input[data-at]')];
  let known = {}; // all that was typed into cells, also where one is not on the page at the moment
  let problemsNow = {};
  let own = ''; // mass of the own ball, as its row shows it
  let units = { mass: 'g', speed: 'm/s' };

  // Every cell reports by its place; one store holds them all.
  document.addEventListener('change', ({ target }) => {
    if (!isCell(target)) return;
    known = { ...known, [target.dataset.at]: target.value };
    if (target.dataset.at.endsWith('/mass_g')) nameRows();
    window.dash_clientside.set_props('athlete-cells', { data: known });
  });

  document.addEventListener('click', ({ target }) => {
    const ball = target instanceof Element && target.closest('[data-remove]')?.dataset.remove;
    if (ball) window.dash_clientside.set_props('athlete-removed', { data: { ball, at: Date.now() } });
  });

  // Cells are called by their ball, whatever its mass is at the moment.
  const nameRows = () => {
    for (const row of document.querySelectorAll('.ball-row')) {
      const mass = row.querySelector('.ball-head input').value.trim().replace(',', '.');
      const bare = /[0-9.]$/.test(mass);
      const name = mass ? (bare ? `${mass} ${units.mass}` : mass) : 'new ball';
      row.setAttribute('aria-label', `Readings with ${name}`);
      row.querySelector('.own-mark').hidden = mass !== own;
      row.querySelector('button').setAttribute('aria-label', `Remove the ${name} ball and its readings`);
      row.querySelectorAll('.ball-cells input').forEach((cell, i) => {
        cell.setAttribute('aria-label', `Reading ${i + 1} with ${name}, ${units.speed}`);
      });
    }
  };

  // What is wrong in a cell: its message stands under its ball, and the cell points to it.
  const show = (problems) => {
    for (const place of document.querySelectorAll('.cell-problems')) {
      const told = Object.entries(problems).filter(([at]) => at.startsWith(`${place.dataset.ball}/`));
      place.replaceChildren(
        ...told.map(([at, message]) => {
          const line = document.createElement('p');
          line.id = `problem-${at}`;
          line.textContent = message;
          return line;
        }),
      );
    }
    for (const cell of every()) {
      const wrong = cell.dataset.at in problems;
      if (wrong) {
        cell.setAttribute('aria-invalid', 'true');
        cell.setAttribute('aria-describedby', `problem-${cell.dataset.at}`);
      } else {
        cell.removeAttribute('aria-invalid');
        cell.removeAttribute('aria-describedby');
      }
    }
  };

  window.dash_clientside = Object.assign({}, window.dash_clientside, {
    athlete: {
      narrow() {
        return NARROW.matches;
      },

      read() {
        try {
          return { kept: JSON.parse(sessionStorage.getItem(KEPT)) };
        } catch {
          return { kept: null }; // storage switched off, or an entry that is not ours
        }
      },

      // Keeps the Compare form, and shows what is wrong.
      kept(form, problems) {
        problemsNow = problems ?? {};
        show(problemsNow);
        if (!form) return;
        try {
          sessionStorage.setItem(KEPT, JSON.stringify(form));
          sessionStorage.setItem(`${KEPT}-timestamp`, String(Date.now()));
        } catch {
          // storage switched off: then nothing is kept from page to page
        }
      },

      rows(grid, cells) {
        if (!grid) return;
        known = cells ?? {};
        own = grid.own;
        units = grid;
        document.getElementById('athlete-grid').innerHTML = grid.html;
        nameRows();
        show(problemsNow);
      },

      details(fields) {
        if (!fields) return;
        document.getElementById('athlete-details').innerHTML = fields.html;
        show(problemsNow);
      },

      card(clicks) {
        if (!clicks) return;
        document.documentElement.classList.add('card-only');
        window.print();
        document.documentElement.classList.remove('card-only');
      },
    },
  });

  const visible = (element) => element.getClientRects().length > 0;
  const inRow = (row) => [...row.querySelectorAll(CELLS)].filter(visible);
  const rowOf = (cell) => cell.closest('.ball-row');
  const rows = () => [...document.querySelectorAll('.ball-row')];

  const go = (cell) => {
    if (!cell) return;
    cell.focus();
    cell.select();
  };

  // Enter: the next reading; in an empty cell the next ball's first empty one. Up and down: another ball.
  document.addEventListener('keydown', (event) => {
    const cell = event.target;
    if (!(cell instanceof HTMLInputElement) || !cell.closest('.ball-row')) return;
    if (event.isComposing || event.ctrlKey || event.altKey || event.metaKey) return;
    const all = rows();
    const row = rowOf(cell);
    const place = all.indexOf(row);
    const cells = inRow(row);
    const here = cells.indexOf(cell);
    const firstEmpty = (other) => other && (inRow(other).find((one) => one.value.trim() === '') ?? inRow(other)[0]);
    if (event.key === 'Enter') {
      event.preventDefault();
      if (here < 0) return go(firstEmpty(row)); // from the ball's mass
      const on = cell.value.trim() !== '' && cells[here + 1];
      return go(on || firstEmpty(all[place + 1]) || cell);
    }
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      const other = all[place + (event.key === 'ArrowDown' ? 1 : -1)];
      if (!other || here < 0) return;
      event.preventDefault();
      const there = inRow(other);
      go(there[Math.min(here, there.length - 1)]);
    }
  });

  // A column or a table pasted into a cell fills the cells from there; one value is pasted as ever.
  document.addEventListener('paste', (event) => {
    const cell = event.target;
    if (!(cell instanceof HTMLInputElement) || !cell.matches(CELLS)) return;
    const text = event.clipboardData?.getData('text/plain') ?? '';
    if (!/[\t\n\r;]/.test(text.trim())) return;
    event.preventDefault();
    const [ball, place] = cell.dataset.at.split('/');
    const data = { text, ball, cell: Number(place), at: Date.now() };
    window.dash_clientside.set_props('athlete-dropped', { data });
  });

  // A printed figure is made for white paper and its width, whatever the screen wears; afterwards all is as it was.
  const figures = () => [...document.querySelectorAll('.athlete .js-plotly-plot')];
  const kept = new WeakMap();

  addEventListener('beforeprint', () => {
    for (const graph of figures()) {
      const paper = graph.layout.meta?.paper;
      if (!paper) continue;
      const height = graph.querySelector('.main-svg').getAttribute('height'); // a drawn figure has lost it from its layout
      kept.set(graph, { data: graph.data, layout: { ...graph.layout, height: Number(height) } });
      window.Plotly.react(graph, paper.data, paper.layout);
    }
  });

  addEventListener('afterprint', () => {
    for (const graph of figures()) {
      if (!kept.has(graph)) continue;
      const { data, layout } = kept.get(graph);
      kept.delete(graph);
      window.Plotly.react(graph, data, layout);
    }
  });
})();
