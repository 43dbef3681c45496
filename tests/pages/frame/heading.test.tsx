import { expect, it } from 'vitest';
import { Heading, renderPart } from '../../../src/pages/frame/index.js';

it('a heading stands as deep as it is told to', () => {
  expect(renderPart(<Heading level={2}>A</Heading>)).toBe('<h2>A</h2>');
  expect(
    renderPart(
      <Heading level={4} id="b">
        B
      </Heading>,
    ),
  ).toBe('<h4 id="b">B</h4>');
});
