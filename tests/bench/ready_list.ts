// What test_ready_list.py has a browser time: `timed` becomes a function of the page.
import { type Part, placeOf, readyList } from "../../webclient/src/rules";

interface Given { modules: Part[][]; now: number }
const ROUNDS = 15;

/** Every module by itself, from its parts to its rows. A browser slows down by stopping now and then, which a fast
 * module may slip through: so whole rounds are timed, and of each module the middle of its times. */
function timed({ modules, now }: Given): { rows: number; rounds: number[]; modules: number[] } {
  let rows = 0;
  const rounds = Array.from({ length: ROUNDS }, () => {
    rows = 0;
    return modules.map((parts, number) => {
      const begun = performance.now();
      rows += readyList([placeOf(`module-${number}`, parts)], now).length;
      return performance.now() - begun;
    });
  });
  const sum = (times: number[]): number => times.reduce((all, one) => all + one, 0);
  return { rows, rounds: rounds.map(sum), modules: modules.map((_, number) => middle(rounds.map((round) => round[number] ?? 0))) };
}

const middle = (times: number[]): number => times.sort((one, other) => one - other)[Math.floor(times.length / 2)] ?? Number.NaN;

Object.assign(globalThis, { timed });
