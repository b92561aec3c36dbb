// Plays the shots of the page: moves the balls along the paths that are kept in #paths.
(function () {
  'use strict';
  const shots = JSON.parse(document.getElementById('paths').textContent);
  const body = document.body;
  const sections = Array.from(document.querySelectorAll('main > section'));
  const links = Array.from(document.querySelectorAll('nav a'));
  let stop = function () {};

  // Where a ball is at t: between two samples; before the first and after the last it rests.
  function placeAt(samples, t) {
    let low = 0;
    let high = samples.length / 3 - 1;
    if (t <= samples[0]) return [samples[1], samples[2]];
    if (t >= samples[3 * high]) return [samples[3 * high + 1], samples[3 * high + 2]];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (samples[3 * middle] <= t) low = middle;
      else high = middle;
    }
    const [t0, x0, y0] = samples.slice(3 * low, 3 * low + 3);
    const [t1, x1, y1] = samples.slice(3 * high, 3 * high + 3);
    const f = t1 > t0 ? (t - t0) / (t1 - t0) : 0;
    return [x0 + f * (x1 - x0), y0 + f * (y1 - y0)];
  }

  function control(section, shot) {
    const balls = section.querySelectorAll('.moves');
    const go = section.querySelector('.go');
    const time = section.querySelector('.time');
    const pace = section.querySelector('.pace');
    let now = 0;
    let request = 0;

    function draw() {
      for (const [ball, gone, samples] of shot.balls) {
        const [x, y] = placeAt(samples, now);
        balls[ball].setAttribute('transform', 'translate(' + x + ' ' + y + ')');
        balls[ball].style.visibility = gone !== null && now >= gone ? 'hidden' : 'visible';
      }
      time.value = String(Math.round(1000 * now / shot.ms));
      time.setAttribute('aria-valuetext', (now / 1000).toFixed(1) + ' seconds');
      section.classList.toggle('playing', now > 0);
    }
    function pause() {
      cancelAnimationFrame(request);
      request = 0;
      go.textContent = now >= shot.ms ? 'Again' : 'Play';
    }
    function play() {
      stop();
      stop = pause;
      if (now >= shot.ms) now = 0;
      go.textContent = 'Stop';
      let last = performance.now();
      const step = function (at) {
        now = Math.min(shot.ms, now + Math.max(0, at - last) * Number(pace.value));
        last = at;
        draw();
        if (now >= shot.ms) pause();
        else request = requestAnimationFrame(step);
      };
      request = requestAnimationFrame(step);
    }

    go.addEventListener('click', function () { if (request) pause(); else play(); });
    time.addEventListener('input', function () {
      pause();
      now = shot.ms * Number(time.value) / 1000;
      draw();
      go.textContent = 'Play';
    });
    for (const each of [go, time, pace]) each.disabled = false;
    section.toggle = function () { go.click(); };
  }

  function show(index) {
    stop();
    const at = Math.max(0, Math.min(sections.length - 1, index));
    sections.forEach(function (section, k) { section.classList.toggle('shown', k === at); });
    links.forEach(function (link, k) {
      if (k === at) link.setAttribute('aria-current', 'true');
      else link.removeAttribute('aria-current');
    });
    scrollTo(0, 0);
    return at;
  }
  function named() {
    return sections.findIndex(function (section) { return '#' + section.id === location.hash; });
  }

  shots.forEach(function (shot, k) { control(sections[k + 1], shot); });
  body.classList.add('one');
  let current = show(named());
  addEventListener('load', function () { scrollTo(0, 0); });  // not to the section that is named
  addEventListener('hashchange', function () { current = show(named()); });
  links.forEach(function (link, k) {
    link.addEventListener('click', function (event) {
      event.preventDefault();
      current = show(k);
      history.replaceState(null, '', '#' + sections[k].id);
    });
  });
  addEventListener('keydown', function (event) {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const typing = /^(INPUT|SELECT|BUTTON)$/.test(event.target.tagName);
    if (typing) return;
    const by = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
    if (by) {
      current = show(current + by);
      history.replaceState(null, '', '#' + sections[current].id);
    } else if (event.key === ' ' && sections[current].toggle) {
      sections[current].toggle();
    } else {
      return;
    }
    event.preventDefault();
  });

  document.querySelectorAll('[data-layer]').forEach(function (box) {
    const name = 'hide-' + box.dataset.layer;
    box.disabled = false;
    body.classList.toggle(name, !box.checked);
    box.addEventListener('change', function () { body.classList.toggle(name, !box.checked); });
  });
})();
