// What is taken along from the Compare page: the browser saves pictures, copies links, and finds a link in the address.
(() => {
  const BEGINNING = '#throws=';

  const PAGE = '/compare';
  if (location.pathname === '/' && location.hash.startsWith(BEGINNING)) location.replace(PAGE + location.hash); // older links

  const say = (words) => window.levelpeak.set('compare-along-said', { children: words });

  // The field gets its text a little later than it is set.
  const select = (text, frames = 120) => {
    const field = document.getElementById('compare-link');
    if (field && field.value !== text && frames > 0) {
      requestAnimationFrame(() => select(text, frames - 1));
      return;
    }
    field?.focus();
    field?.select();
  };

  // A link is handed over once the page stands, and leaves the address: it is opened once.
  const found = () => {
    if (!location.hash.startsWith(BEGINNING) || !document.querySelector('.compare')) return null;
    const text = location.hash.slice(BEGINNING.length);
    history.replaceState(history.state, '', location.pathname + location.search);
    return text;
  };
  addEventListener('hashchange', () => {
    const text = found();
    if (text !== null) window.levelpeak.set('compare-link-opened', { data: text });
  });

  window.levelpeak.callbacks({
    along: {
      arrive() {
        return found() ?? window.levelpeak.still;
      },

      // What was typed right before a button was pressed is kept before it is taken along.
      async ask() {
        const button = window.levelpeak.called.triggered_id;
        if (!window.levelpeak.called.triggered.some(({ value }) => value)) return window.levelpeak.still;
        await window.levelpeak.settled();
        return { button, at: Date.now() };
      },

      leave() {
        return true;
      },

      print(pressed) {
        if (pressed) window.print();
      },

      async save(image) {
        if (!image) return;
        const { format, scale, name } = image;
        const figure = window.levelpeak.figureTold(image.figure);
        const { width, height } = figure.layout;
        const config = { plotlyServerURL: '' };
        try {
          const url = await window.Plotly.toImage({ ...figure, config }, { format, width, height, scale });
          Object.assign(document.createElement('a'), { href: url, download: name }).click();
          say(`Saved as ${name}.`);
        } catch {
          say('This browser could not make the picture; the printed page holds the same figure.');
        }
      },

      // Where the clipboard is not allowed, the link stands selected in its field.
      async copy(link) {
        if (!link) return;
        const address = `${location.origin}${location.pathname}${BEGINNING}${link.text}`;
        window.levelpeak.set('compare-link', { value: address });
        try {
          await navigator.clipboard.writeText(address);
          say(`Link copied, ${address.length} characters.`);
        } catch {
          say('This browser does not let the link be copied by itself. It is selected in its field: copy it from there.');
          select(address);
        }
      },
    },
  });
})();
