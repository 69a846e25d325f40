/**
 * Leaves only some of the changes in an instrumented text. Each change costs a question wherever its line is passed; a solver with
 * hundreds of them ran five to ten times as long.
 */
import { transformSync } from '@babel/core';

/** @param text  instrumented; @param kept  ids of the changes that stay */
export function thinned(text, kept) {
  const plugin = ({ types: t }) => {
    const callOf = (node, name) =>
      t.isCallExpression(node) && t.isIdentifier(node.callee) && node.callee.name.startsWith(name) ? node : undefined;
    const goes = (test) => {
      const asked = callOf(test, 'stryMutAct');
      return asked !== undefined && !kept.has(asked.arguments[0].value);
    };
    const choose = (path) => {
      if (goes(path.node.test)) path.replaceWith(path.node.alternate);
    };
    const keepOf = (count) => {
      count.arguments = count.arguments.filter((id) => kept.has(id.value));
      return count.arguments.length > 0;
    };
    return {
      visitor: {
        ConditionalExpression: choose,
        IfStatement: choose,
        SequenceExpression(path) {
          const count = callOf(path.node.expressions[0], 'stryCov');
          if (count && !keepOf(count)) path.replaceWith(path.node.expressions[1]);
        },
        ExpressionStatement(path) {
          const count = callOf(path.node.expression, 'stryCov');
          if (count && !keepOf(count)) path.remove();
        },
      },
    };
  };
  return transformSync(text, { configFile: false, babelrc: false, parserOpts: { plugins: ['typescript'] }, plugins: [plugin] }).code;
}
