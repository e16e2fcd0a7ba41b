// What the scripts here share: the program under test, and the designs and boards of the examples.
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export const program = process.argv[2] ?? process.env.PINFOLD_PROGRAM;
export const root = process.argv[3] ?? process.env.PINFOLD_ROOT;
if (!program || !root) {
    console.error('usage: node SCRIPT PROGRAM REPOSITORY');
    process.exit(2);
}

let faults = 0;

export function expect(is_true, text) {
    if (is_true) return;
    faults += 1;
    console.error(`fault: ${text}`);
}

/** Ends the script: non-zero if anything expected was not so, or nothing was tried. */
export function finish(tried, what) {
    expect(tried > 0, `no ${what} tried`);
    console.log(`${tried} ${what} tried, ${faults} faults`);
    process.exit(faults === 0 ? 0 : 1);
}

export function run(command, options) {
    const result = spawnSync(command, options, {
        cwd: root, encoding: 'utf8', maxBuffer: 1 << 28, timeout: 60000,
    });
    if (result.error) throw result.error;
    return result;
}

export const pinfold = (...options) => run(program, options);

/** A package of package.json, or the end of the script: skipped, if it is not installed. */
export async function needed(name) {
    try {
        return (await import(name)).default;
    } catch (error) {
        console.error(`skipped: ${name} is missing; run 'npm ci' in tests/outside`);
        process.exit(77);
    }
}

/** Every design file of the examples, by its path from the repository. */
export function designs() {
    return readdirSync(join(root, 'examples'), { recursive: true })
        .map((file) => join('examples', file))
        .filter((file) => file.endsWith('.yaml'))
        .filter((file) => /^pinfold: *1/m.test(readFileSync(join(root, file), 'utf8')))
        .sort();
}

/** The boards of a design, which the program lists when it is asked for one that is not there. */
export function boards(design) {
    const said = pinfold('netlist', design, '--board', '?').stderr;
    const list = /its boards: (.*) \[board-unknown\]/.exec(said)?.[1];
    expect(list, `${design}: no list of boards but: ${said.split('\n')[0]}`);
    return list && list !== 'none' ? list.split(', ') : [];
}
