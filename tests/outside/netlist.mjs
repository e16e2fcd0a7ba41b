// Reads every board's netlist with an S-expression reader and an XML reader that are not ours, and
// compares which pads each says are joined.
//
// node netlist.mjs PROGRAM REPOSITORY; needs npm s-expression (npm ci here) and xmllint.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { boards, designs, expect, finish, needed, pinfold, root, run } from './shared/examples.mjs';

const parse = await needed('s-expression');

/** A list of the S-expression: its word, its texts, its lists. */
function branch([word, ...parts], where) {
    expect(!(word instanceof String), `${where}: '${word}' is a keyword and must not be quoted`);
    const made = { word, texts: [], lists: [] };
    for (const part of parts) {
        if (Array.isArray(part)) {
            made.lists.push(branch(part, where));
        } else {
            expect(part instanceof String, `${where}: '${part}' is not quoted`);
            made.texts.push(String(part));
        }
    }
    return made;
}

const all = (tree, word) => tree.lists.filter((list) => list.word === word);
const only = (tree, word) => all(tree, word)[0];
const text = (tree, word) => only(tree, word)?.texts[0];

/** Pads as sorted text, one line a net: comparable whatever the nets are called. */
const partition = (nets) => nets.map((pads) => [...pads].sort().join('  ')).sort().join('\n');

function check_components(tree, where) {
    const components = all(only(tree, 'components'), 'comp');
    const references = components.map((component) => text(component, 'ref'));
    expect(new Set(references).size === references.length, `${where}: a reference stands twice`);
    const ids = components.map((component) => text(component, 'tstamps'));
    expect(new Set(ids).size === ids.length, `${where}: an identifier stands twice`);
    for (const id of ids) {
        // RFC 9562, section 5.5: version 5, variant 10.
        expect(/^[0-9a-f]{8}-[0-9a-f]{4}-5[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/.test(id),
               `${where}: '${id}' is no name-based UUID`);
    }
    return references;
}

/** Every pin of the library parts, by the reference of the component that is made of the part. */
function pins_of(tree) {
    const parts = new Map(all(only(tree, 'libparts'), 'libpart').map((part) => [
        `${text(part, 'lib')}:${text(part, 'part')}`,
        all(only(part, 'pins'), 'pin').map((pin) => text(pin, 'num')),
    ]));
    return all(only(tree, 'components'), 'comp').flatMap((component) => {
        const source = only(component, 'libsource');
        const pins = parts.get(`${text(source, 'lib')}:${text(source, 'part')}`) ?? [];
        return pins.map((pin) => JSON.stringify([text(component, 'ref'), pin]));
    });
}

function read_text(netlist, where) {
    const parsed = parse(netlist);
    if (parsed instanceof Error) throw new Error(`${where}: ${parsed.message}`);
    const tree = branch(parsed, where);
    expect(tree.word === 'export' && text(tree, 'version') === 'E', `${where}: not version E`);
    check_components(tree, where);
    const nets = all(only(tree, 'nets'), 'net');
    nets.forEach((net, i) => {
        expect(text(net, 'code') === String(i + 1), `${where}: net codes are not 1, 2, 3 ...`);
    });
    const names = nets.map((net) => text(net, 'name'));
    expect(new Set(names).size === names.length, `${where}: a net's name stands twice`);
    const pads = nets.map((net) => all(net, 'node').map(
        (node) => JSON.stringify([text(node, 'ref'), text(node, 'pin')])));
    expect(pads.flat().sort().join() === pins_of(tree).sort().join(),
           `${where}: the pads of the nets are not the pins of the parts`);
    return { names, pads };
}

const entities = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };
const unescaped = (value) => value.replace(
    /&(?:#(\d+)|#x([0-9a-f]+)|(\w+));/gi, (_, decimal, hex, name) =>
        name ? entities[name] : String.fromCodePoint(decimal ? +decimal : parseInt(hex, 16)));

function read_xml(file, where) {
    const checked = run('xmllint', ['--noout', '--nonet', file]);
    expect(checked.status === 0, `${where}: xmllint: ${checked.stderr}`);
    const listed = run('xmllint', ['--nonet', '--xpath',
        '/export/nets/net/@name | /export/nets/net/node/@ref | /export/nets/net/node/@pin', file]);
    expect(listed.status === 0, `${where}: xmllint: ${listed.stderr}`);
    const names = [];
    const pads = [];
    let reference = '';
    for (const [, word, raw] of listed.stdout.matchAll(/ (name|ref|pin)="([^"]*)"/g)) {
        const value = unescaped(raw);
        if (word === 'name') names.push(value), pads.push([]);
        if (word === 'ref') reference = value;
        if (word === 'pin') pads.at(-1).push(JSON.stringify([reference, value]));
    }
    return { names, pads };
}

const folder = mkdtempSync(join(tmpdir(), 'pinfold-netlist-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
let tried = 0;

function check_board(design, board) {
    const where = `${design}, board ${board}`;
    const files = {};
    for (const format of ['kicad', 'kicad-xml']) {
        files[format] = join(folder, `board.${format}`);
        const made = pinfold('netlist', design, '--board', board, '--format', format, '-o',
                             files[format]);
        const open = /wired: *best/.test(readFileSync(resolve(root, design), 'utf8'));
        if (open && made.status === 2 && made.stderr.includes('[order-open]')) return undefined;
        expect(made.status === 0, `${where}: exit ${made.status}: ${made.stderr}`);
        if (made.status !== 0) return undefined;
    }
    const printed = pinfold('netlist', design, '--board', board);
    expect(printed.stdout === pinfold('netlist', design, '--board', board).stdout,
           `${where}: two runs differ`);
    const from_text = read_text(printed.stdout, where);
    const from_xml = read_xml(files['kicad-xml'], where);
    expect(partition(from_text.pads) === partition(from_xml.pads),
           `${where}: the two forms join different pads`);
    expect(from_text.names.join('\n') === from_xml.names.join('\n'),
           `${where}: the two forms name nets differently`);
    tried += 1;
    return from_text;
}

for (const design of designs()) {
    for (const board of boards(design)) check_board(design, board);
}

// HDMI Specification 1.4, Type A pin assignment: contact 1 is D2+, 18 is +5V; the other halves of
// these nets are places in the list of examples/lid-link/base.yaml.
const base = check_board('examples/lid-link/design.yaml', 'base');
for (const [name, pads] of [['D2+', [['J1', '1'], ['J2', '2']]], ['5V', [['J1', '18'], ['J2', '10']]]]) {
    const found = base?.pads[base.names.indexOf(name)] ?? [];
    expect(found.join() === pads.map((pad) => JSON.stringify(pad)).join(),
           `examples/lid-link, board base: net ${name} is ${found}`);
}

// Names that no reader may trip over.
const hostile = ['A"B', 'C(D)', 'E\\F', 'G/H', '</export>', "I'J", '&amp;', '#K', 'é−😀', '{slash}',
                 'L M', ']]>', ';N', '`O`'];
const quoted = hostile.map((name) => `'${name.replaceAll("'", "''")}'`).join(', ');
writeFileSync(join(folder, 'hostile.yaml'), `pinfold: 1
title: "Hostile \\"names\\""
boards:
  b:
    ports:
      x: {pads: [${quoted}], reference: 'J"1', part: "</comp>\\n\\t(", footprint: 'A:B\\'}
      y: {pads: [${quoted}], reference: 'J (2)'}
`);
const read = check_board(join(folder, 'hostile.yaml'), 'b');
expect(read?.names.length === hostile.length, `hostile names: ${read?.names.length} nets`);
expect(read?.names.includes('G{slash}H'), 'hostile names: no net G{slash}H');
expect(read?.pads.flat().includes(JSON.stringify(['J"1', '1'])), 'hostile names: no pad J"1.1');

finish(tried, 'netlists');
