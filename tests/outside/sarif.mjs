// Checks SARIF logs of the program: against the rules of the standard (sarif-rules.json, by ajv),
// and that every rule, file, line and column they name is there.
//
// node sarif.mjs PROGRAM REPOSITORY; needs npm ajv-draft-04 (npm ci here).
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { designs, expect, finish, needed, pinfold, root } from './shared/examples.mjs';

const Ajv = await needed('ajv-draft-04');
const schema = JSON.parse(readFileSync(new URL('sarif-rules.json', import.meta.url), 'utf8'));
const validate = new Ajv({ allErrors: true }).compile(schema);

const folder = mkdtempSync(join(tmpdir(), 'pinfold-sarif-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
let tried = 0;

/** SARIF 2.1.0, 3.10: a relative reference, from where the program was run. */
function lines_at(uri) {
    const path = decodeURIComponent(uri.startsWith('file://') ? uri.slice(7) : uri);
    return readFileSync(resolve(root, path), 'utf8').replace(/^\uFEFF/, '').split(/\r?\n/);
}

/** 3.30: lines and columns count from 1; a column may be one past the last code point. */
function check_place({ artifactLocation, region }, where) {
    const absolute = artifactLocation.uri.startsWith('file://');
    expect(absolute === (artifactLocation.uriBaseId === undefined), `${where}: uriBaseId`);
    const lines = lines_at(artifactLocation.uri);
    if (!region) return;
    expect(region.startLine <= lines.length, `${where}: no line ${region.startLine}`);
    const width = [...(lines[region.startLine - 1] ?? '')].length;
    expect(region.startColumn <= width + 1, `${where}: no column ${region.startColumn}`);
}

/** 3.11.5: outside a placeholder, and there are none, every brace is doubled. */
function check_message({ text }, where) {
    expect(!/[{}]/.test(text.replaceAll('{{', '').replaceAll('}}', '')), `${where}: '${text}'`);
}

function check_result(result, rules, where) {
    expect(rules[result.ruleIndex]?.id === result.ruleId, `${where}: ruleIndex of ${result.ruleId}`);
    check_message(result.message, where);
    for (const location of [...result.locations, ...(result.relatedLocations ?? [])]) {
        if (location.physicalLocation) check_place(location.physicalLocation, where);
        if (location.message) check_message(location.message, where);
    }
    const ids = (result.relatedLocations ?? []).map(({ id }) => id);
    expect(new Set(ids).size === ids.length, `${where}: a location's id stands twice`);
}

/** Checks one design and its log; gives the rules that were found. */
function check_log(design) {
    const made = pinfold('check', design, '--format', 'sarif');
    if (made.status !== 0 && made.status !== 1) {
        expect(false, `${design}: exit ${made.status}: ${made.stderr.split('\n')[0]}`);
        return [];
    }
    const log = JSON.parse(made.stdout);
    expect(validate(log), `${design}: ${JSON.stringify(validate.errors, null, 1)}`);
    const { tool, results } = log.runs[0];
    const ids = tool.driver.rules.map(({ id }) => id);
    expect(new Set(ids).size === ids.length, `${design}: a rule stands twice`);
    for (const result of results) check_result(result, tool.driver.rules, design);
    const errors = results.filter(({ level }) => level === 'error');
    expect((errors.length > 0) === (made.status === 1), `${design}: exit ${made.status}, ` +
           `${errors.length} errors`);
    tried += 1;
    return results.map(({ ruleId }) => ruleId);
}

for (const design of designs()) check_log(design);

// A design of our own in a place with an awkward name, whose one board leaves the line open.
const awkward = join(folder, 'lid [1] é#%.yaml');
writeFileSync(awkward, `pinfold: 1
title: Tide gauge
devices:
  far: {ports: {out: {pads: [SCL, GND]}}}
  near: {ports: {in: {pads: [SCL, GND]}}}
carry:
- {interface: plain, from: far.out, to: near.in}
`);
expect(check_log(awkward).length > 0, 'awkward name: nothing was found');

finish(tried, 'SARIF logs');
