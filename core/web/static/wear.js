// How far a reading is worn, from new to its limit: for checks that are read directly. What is derived, or judged over a group, is graded by the shop.
(() => {
  // side gives the wear towards one limit: 0 is new, 1 is the limit; null where there is no wear to speak of.
  const side = (x, fresh, limit) => (fresh === null || limit === null || fresh === limit ? null : (x - fresh) / (limit - fresh));
  // wear gives the larger of both sides; null where no limit bounds the reading.
  function wear(x, fresh, limits) {
    const low = side(x, fresh[0], limits[0]);
    const high = side(x, fresh[1], limits[1]);
    if (low === null) return high;
    if (high === null) return low;
    return Math.max(low, high);
  }
  // beyond reports that a reading lies outside new on a side that has no limit of its own: no wear, and not as new either.
  const beyond = (x, fresh, limits) => (limits[0] === null && fresh[0] !== null && x < fresh[0]) || (limits[1] === null && fresh[1] !== null && x > fresh[1]);
  // nearest completes last digits against a nominal: "936" against 1.9985 is 1.9936, the figure nearest to the nominal that ends so. It is
  // never less than nothing: who means that touches minus.
  function nearest(typed, nominal) {
    const places = (nominal.split('.')[1] || '').length;
    const unit = 10 ** places;
    const whole = 10 ** typed.length;
    const n = Math.round(Number(nominal) * unit);
    const d = Number(typed);
    let v = Math.round((n - d) / whole) * whole + d;
    if (v < 0 && n >= 0) v += whole;
    return (v / unit).toFixed(places);
  }
  window.fettle = Object.assign(window.fettle || {}, { wear, beyond, nearest });
})();
