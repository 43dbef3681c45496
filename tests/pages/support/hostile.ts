/** Texts that captures and sheets may hold, and what must not become of them. */
export const HOSTILE_TEXTS: readonly string[] = [
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  "' onmouseover='alert(1)",
  '</style></title></table><h1>taken over</h1>',
  '&lt;b&gt; &amp;',
  '=HYPERLINK("http://example.invalid")',
  'javascript:alert(1)',
  '\u001b[31mred\u001b[0m\u0007',
  '\u202eright to left\u2066\u200b',
  '\ud800 half a pair \u0000',
  '../../etc/passwd',
];

/** An element of 100 KB. */
export const HUGE_TEXT = `<b>&"${'x'.repeat(100_000)}`;
