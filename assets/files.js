// A file that a page does not take is refused before it is sent, with what was given and what is accepted. Its field says
// both: `accept` on its input, `data-most-bytes` around it.
(() => {
  const kb = (bytes, round) => `${round(bytes / 1000)} kB`;

  const refusal = (file, place) => {
    const most = Number(place.dataset.mostBytes);
    const ending = place.querySelector('input[type=file]').accept;
    if (!file.name.toLowerCase().endsWith(ending)) return `“${file.name}” given; accepted: a file whose name ends in ${ending}.`;
    if (file.size > most) return `“${file.name}” given, with ${kb(file.size, Math.ceil)}; accepted: up to ${kb(most, Math.floor)}.`;
    return '';
  };

  const look = (event, files) => {
    const place = event.target.closest?.('[data-most-bytes]');
    const reason = place && files?.length ? refusal(files[0], place) : '';
    if (!reason) return;
    event.preventDefault();
    event.stopPropagation(); // before the field hears of it
    if (event.type === 'change') event.target.value = ''; // so that the same file, made smaller, can be chosen again
    window.levelpeak.tell(`The file was not opened: ${reason}`);
  };

  document.addEventListener('change', (event) => look(event, event.target.files), true);
  document.addEventListener('drop', (event) => look(event, event.dataTransfer?.files), true);
})();
