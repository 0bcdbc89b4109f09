// Our own lint rules. Each answers a mistake that a review would otherwise have to find every time.
import type { RuleTester } from 'oxlint/plugins-dev';

// oxlint exports its types only through its tester.
type Rule = Extract<Parameters<RuleTester['run']>[1], { create: unknown }>;
type Context = Parameters<NonNullable<Rule['create']>>[0];
type Visitor = ReturnType<NonNullable<Rule['create']>>;
/** What all syntax nodes share. */
interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly range: [number, number];
}

/** A transaction callback that reaches past its `tx` runs outside the transaction, and outside its tenant. */
const transactionOnly = {
  create(context: Context): Visitor {
    const open: { owner: string; callback: Node }[] = [];
    const textOf = (node: Node): string => context.sourceCode.getText(node);
    return {
      CallExpression(call) {
        const { callee } = call;
        if (callee.type !== 'MemberExpression' || callee.property.type !== 'Identifier') return;
        if (callee.property.name !== 'inTenant' && callee.property.name !== '$transaction') return;
        const callback = call.arguments.findLast((argument) => isFunction(argument));
        if (callback) open.push({ owner: textOf(callee.object), callback });
      },
      MemberExpression(node) {
        const text = textOf(node);
        for (const { owner, callback } of open) {
          if (!contains(callback, node)) continue;
          const past = text === 'this.db' || text === 'this.prisma' || textOf(node.object) === owner;
          if (past) context.report({ node, message: `Inside the transaction use its tx, not ${text}.` });
          if (past) return;
        }
      },
    };
  },
};

const STAR = /\bselect\s+(?:distinct\s+)?(?:\w+\.)?\*|\bselect\b[^;]*,\s*\w+\.\*|\breturning\s+(?:\w+\.)?\*/i;

/** A column added later must not appear in answers, or break a reader, by itself: name the columns. */
const noSelectStar = {
  create(context: Context): Visitor {
    const check = (node: Node, text: string): void => {
      if (STAR.test(text)) context.report({ node, message: 'Name the columns instead of *.' });
    };
    return {
      Literal(node) {
        if (typeof node.value === 'string') check(node, node.value);
      },
      TemplateLiteral(node) {
        check(node, node.quasis.map((part) => part.value.raw).join('?'));
      },
    };
  },
};

/** Everything an app reads from its environment stands, checked, in one file. */
const envInEnvFile = {
  create(context: Context): Visitor {
    if (/[\\/]apps[\\/]\w+[\\/]src[\\/](?:.*[\\/])?env\.ts$/.test(context.filename)) return {};
    const report = (node: Node): void =>
      context.report({ node, message: "Read the environment in the app's env.ts only." });
    return {
      MemberExpression(node) {
        const { object, property } = node;
        if (object.type !== 'Identifier' || object.name !== 'process') return;
        if (property.type === 'Identifier' ? property.name === 'env' : isText(property, 'env')) report(node);
      },
      VariableDeclarator(node) {
        if (node.init?.type !== 'Identifier' || node.init.name !== 'process' || node.id.type !== 'ObjectPattern')
          return;
        if (node.id.properties.some((one) => one.type === 'Property' && isNamed(one.key, 'env'))) report(node);
      },
      ImportDeclaration(node) {
        if (!/^(?:node:)?process$/.test(node.source.value)) return;
        if (node.specifiers.some((one) => one.type === 'ImportSpecifier' && isNamed(one.imported, 'env'))) report(node);
      },
    };
  },
};

function isFunction(node: Node): boolean {
  return node.type === 'ArrowFunctionExpression' || node.type === 'FunctionExpression';
}

function isNamed(node: Node, name: string): boolean {
  return (node.type === 'Identifier' && 'name' in node && node.name === name) || isText(node, name);
}

function isText(node: Node, text: string): boolean {
  return node.type === 'Literal' && 'value' in node && node.value === text;
}

function contains(outer: Node, inner: Node): boolean {
  return outer.range[0] <= inner.range[0] && inner.range[1] <= outer.range[1];
}

export default {
  meta: { name: 'ullage' },
  rules: {
    'transaction-only': transactionOnly,
    'no-select-star': noSelectStar,
    'env-in-env-file': envInEnvFile,
  },
};
