// A word that can be asked for shows its meaning where the reader is. Its link leads to the same words on their own page.
(() => {
  const SHOWN = 'term-shown';
  let asked = null;

  const box = () => {
    let made = document.getElementById(SHOWN);
    if (made) return made;
    made = document.createElement('dialog');
    made.id = SHOWN;
    made.setAttribute('aria-labelledby', `${SHOWN}-name`);
    const name = document.createElement('strong');
    name.id = `${SHOWN}-name`;
    const words = document.createElement('p');
    const all = document.createElement('a');
    all.textContent = 'All words';
    const away = document.createElement('button');
    away.type = 'button';
    away.textContent = 'Close';
    away.addEventListener('click', () => made.close());
    const foot = document.createElement('p');
    foot.append(all, away);
    made.append(name, words, foot);
    made.addEventListener('click', (event) => event.target === made && made.close()); // beside its words
    made.addEventListener('close', () => asked?.focus());
    document.querySelector('.shell').append(made);
    return made;
  };

  document.addEventListener('click', (event) => {
    const word = event.target instanceof Element && event.target.closest('a.term');
    if (!word || event.ctrlKey || event.metaKey || event.shiftKey) return;
    const term = document.querySelector(`#glossary-terms [data-term="${CSS.escape(word.dataset.term)}"]`);
    if (!term) return;
    event.preventDefault();
    event.stopPropagation(); // the word may stand in the label of a field or a fold
    asked = word;
    const shown = box();
    const [name, words, foot] = shown.children;
    name.textContent = term.dataset.name;
    words.textContent = term.dataset.text;
    foot.firstChild.href = word.getAttribute('href');
    shown.showModal();
  }, true);
})();
