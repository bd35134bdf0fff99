// Numbers in the reader's form: where decimals are marked by a comma, every number that is shown is rewritten as it comes
// onto the page. Typed text, quotations of it, sources and files taken along stay as they are.
(() => {
  const POINT = 'point';
  const COMMA = 'comma';
  // What is left alone comes first: quoted text, addresses of articles, versions and the like.
  const NUMBERS = /“[^”]*”|10\.\d{4,9}\/\S+|\d+(?:\.\d+){2,}|(?<![\w.])\d+\.\d+/g;
  const PLAIN = /^\d+\.\d+$/;
  const AS_IS = '[data-as-is], .source, code, pre, script, style, textarea';
  const ATTRIBUTES = ['placeholder', 'aria-label', 'aria-valuetext', 'title', 'data-text'];
  const WATCHED = { subtree: true, childList: true, characterData: true, attributes: true, attributeFilter: ATTRIBUTES };

  const usual = () => {
    const parts = new Intl.NumberFormat(navigator.language).formatToParts(1.5);
    return parts.find((part) => part.type === 'decimal')?.value === ',' ? COMMA : POINT;
  };

  let mark = POINT;
  const told = (text) => text.replace(NUMBERS, (found) => (PLAIN.test(found) ? found.replace('.', ',') : found));

  // Where a number was rewritten, what stood there: a text node, or an element's attribute.
  const written = new WeakMap();
  const places = (node) =>
    node.nodeType === Node.TEXT_NODE
      ? [[node, 'data']]
      : ATTRIBUTES.filter((name) => node.hasAttribute?.(name)).map((name) => [node, name]);
  const read = (node, name) => (name === 'data' ? node.data : node.getAttribute(name));
  const write = (node, name, text) => (name === 'data' ? (node.data = text) : node.setAttribute(name, text));

  const put = (node, name) => {
    const now = read(node, name);
    const were = written.get(node) ?? {};
    const then = were[name];
    if (mark === POINT) {
      if (then && now === then.told) write(node, name, then.was);
      return;
    }
    const wanted = told(now);
    if (wanted === now || (node.parentElement ?? node).closest?.(AS_IS)) return;
    written.set(node, { ...were, [name]: { was: now, told: wanted } });
    write(node, name, wanted);
  };

  const each = (root) => {
    if (root.nodeType === Node.TEXT_NODE) return put(root, 'data');
    const walker = document.createTreeWalker(root, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT);
    for (let node = walker.currentNode; node; node = walker.nextNode()) places(node).forEach((place) => put(...place));
  };

  const watch = new MutationObserver((changes) => {
    for (const { type, target, attributeName, addedNodes } of changes) {
      if (type === 'childList') addedNodes.forEach(each);
      else put(target, type === 'attributes' ? attributeName : 'data');
    }
  });

  const wear = (chosen) => {
    mark = chosen === COMMA || chosen === POINT ? chosen : usual();
    watch.disconnect();
    each(document.documentElement);
    if (mark === COMMA) watch.observe(document.documentElement, WATCHED);
    return mark;
  };

  // A figure that leaves the page, with its numbers in the same form.
  const figure = (made) => {
    if (mark === POINT) return made;
    const texts = (part) => (typeof part === 'string' ? told(part) : Array.isArray(part) ? part.map(texts) : part);
    const { data, layout } = made;
    return {
      ...made,
      data: data.map((trace) => ({ ...trace, text: texts(trace.text) })),
      layout: {
        ...layout,
        separators: ',\u202f',
        title: { ...layout.title, text: texts(layout.title?.text) },
        annotations: layout.annotations?.map((one) => ({ ...one, text: texts(one.text) })),
      },
    };
  };

  Object.assign(window.levelpeak, { wearDecimal: wear, figureTold: figure });
  wear(window.levelpeak.kept('shell-decimal'));
})();
