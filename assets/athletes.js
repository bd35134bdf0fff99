// The table of athletes: put in its place, sorted by a column, filtered while somebody types.
(() => {
  const PLACE = 'athletes-place';
  let sorted = null; // { column, falling }: none as the server has it, those looked at last first
  let wanted = '';

  const valueIn = (row, column) => row.cells[column].dataset.sort;
  const byNumber = (one, other) => Number(one) - Number(other);
  const byText = (one, other) => one.localeCompare(other, undefined, { numeric: true });

  const arrange = () => {
    const table = document.getElementById(PLACE)?.querySelector('table');
    if (!table) return;
    const body = table.tBodies[0];
    const rows = [...body.rows];
    table.querySelectorAll('thead th').forEach((head, column) => {
      const way = sorted?.falling ? 'descending' : 'ascending';
      head.setAttribute('aria-sort', sorted?.column === column ? way : 'none');
    });
    if (sorted) {
      const { column, falling } = sorted;
      const compare = 'falling' in table.tHead.rows[0].cells[column].firstChild.dataset ? byNumber : byText;
      rows.sort((one, other) => {
        const [first, second] = [valueIn(one, column), valueIn(other, column)];
        if (!first || !second) return Number(!first) - Number(!second); // who has none comes last, either way
        return falling ? compare(second, first) : compare(first, second);
      });
      body.append(...rows);
    }
    let shown = 0;
    for (const row of rows) {
      row.hidden = !row.dataset.code.includes(wanted);
      shown += Number(!row.hidden);
    }
    const all = `${rows.length} ${rows.length === 1 ? 'athlete' : 'athletes'}`;
    table.caption.textContent = shown === rows.length ? all : `${shown} of ${all}`;
  };

  document.addEventListener('click', ({ target }) => {
    const button = target.closest?.(`#${PLACE} button`);
    if (!button) return;
    if (button.dataset.do) {
      const { do: act, athlete } = button.dataset;
      window.levelpeak.set('athletes-asked', { data: { do: act, athlete, at: Date.now() } });
      return;
    }
    const column = Number(button.dataset.column);
    const falling = 'falling' in button.dataset;
    sorted = { column, falling: sorted?.column === column ? !sorted.falling : falling };
    arrange();
  });

  window.levelpeak.callbacks({
    athletes: {
      fill(data) {
        const place = document.getElementById(PLACE);
        if (!place || !data) return 'true';
        place.innerHTML = data.html;
        wanted = (document.getElementById('athletes-filter')?.value ?? '').trim().toLowerCase();
        arrange();
        return 'false';
      },

      find(text) {
        wanted = (text ?? '').trim().toLowerCase();
        arrange();
      },
    },
  });
})();
