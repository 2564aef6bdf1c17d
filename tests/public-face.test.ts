import { relative } from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const program = ts.createProgram(['src/index.ts'], {
  ...ts.parseJsonConfigFileContent(
    ts.readConfigFile('tsconfig.json', ts.sys.readFile).config,
    ts.sys,
    '.',
  ).options,
  noEmit: true,
});
const checker = program.getTypeChecker();
const face = checker.getSymbolAtLocation(program.getSourceFile('src/index.ts')!)!;
const origin = (symbol: ts.Symbol) =>
  symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
const exported = checker.getExportsOfModule(face).map(origin);

const isOfProject = (declaration: ts.Declaration) =>
  /^src\//.test(relative('.', declaration.getSourceFile().fileName));

/** Exported types that a declaration names where its user sees them: not in a body or an initial value. */
function typesNamed(declaration: ts.Declaration): ts.Symbol[] {
  const named: ts.Symbol[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isBlock(node) || ts.isLiteralTypeNode(node)) return;
    if (ts.isTypeReferenceNode(node) || ts.isExpressionWithTypeArguments(node)) {
      const name = ts.isTypeReferenceNode(node) ? node.typeName : node.expression;
      const symbol = checker.getSymbolAtLocation(name);
      if (symbol) named.push(origin(symbol));
    }
    node.forEachChild((child) => {
      const isValue =
        ts.isVariableDeclaration(node) && child === node.initializer && !ts.isArrowFunction(child);
      const isBody = ts.isArrowFunction(node) && child === node.body;
      if (!isValue && !isBody) visit(child);
    });
  };
  visit(declaration);
  return named.filter(
    (symbol) =>
      !(symbol.flags & ts.SymbolFlags.TypeParameter) && symbol.declarations?.some(isOfProject),
  );
}

describe('the public face', () => {
  const values = exported.filter(({ flags }) => flags & ts.SymbolFlags.Value);

  it.each(values.map((symbol) => [symbol.name, symbol] as const))(
    '%s has an example',
    (_, symbol) => {
      const tags = symbol.getJsDocTags(checker).map(({ name }) => name);
      expect(tags).toContain('example');
    },
  );

  it('exports every type that its exports name', () => {
    const missing = exported.flatMap((symbol) =>
      (symbol.declarations ?? [])
        .flatMap(typesNamed)
        .filter((type) => !exported.includes(type))
        .map((type) => `${type.name}, named by ${symbol.name}`),
    );
    expect(missing).toEqual([]);
  });
});
