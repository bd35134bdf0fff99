// The theme, put on the page before its first paint and whenever it is changed.
// It is kept by the dcc.Store "shell-theme"; what reads it here is the same entry of the browser's storage.
window.levelpeak = (() => {
  const THEMES = ['light', 'dark', 'projector'];

  const kept = (name) => {
    try {
      return JSON.parse(localStorage.getItem(name));
    } catch {
      return null; // storage switched off, or an entry that is not ours
    }
  };

  const wear = (theme) => {
    const known = THEMES.includes(theme) ? theme : THEMES[0];
    document.documentElement.dataset.theme = known;
    return known === 'dark' ? 'dark' : 'light'; // the colour scheme of the components
  };

  wear(kept('shell-theme'));
  return { kept, wear };
})();
