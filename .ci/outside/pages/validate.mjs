// Holds documents against the HTML standard. Reads an object from standard input, a
// document to a name, and writes one with what is wrong in each.
import { HtmlValidate, StaticConfigLoader } from "html-validate";
import { text } from "node:stream/consumers";

const loader = new StaticConfigLoader({
  extends: ["html-validate:recommended", "html-validate:a11y", "html-validate:document"],
  rules: {
    // How a document is written down, which no reader of it can tell: templates leave
    // blanks at the ends of lines and elements that close by themselves, as the standard
    // allows (HTML, 13.1.2.4).
    "no-trailing-whitespace": "off",
    "no-implicit-close": "off",
    "void-style": "off",
    "doctype-style": "off",
    "attribute-boolean-style": "off",
    "attribute-empty-style": "off",
    "attr-quotes": "off",
    // An input without a type is one for text: that is what the standard says of it
    // (HTML, 4.10.5).
    "no-implicit-input-type": "off",
    // A button in a form sends it: that is what the standard says a button without a
    // type does (HTML, 4.10.6).
    "no-implicit-button-type": "off",
    // Titles longer than a search engine shows: nothing here is for search engines.
    "long-title": "off",
    // Scripts of our own origin need no sum: the policy allows no other.
    "require-sri": "off",
  },
});
const validator = new HtmlValidate(loader);
const found = {};
for (const [name, document] of Object.entries(JSON.parse(await text(process.stdin)))) {
  const report = await validator.validateString(document, name + ".html");
  found[name] = report.results.flatMap((r) => r.messages)
    .map((m) => ({ Rule: m.ruleId, Message: m.message, Line: m.line, Column: m.column }));
}
console.log(JSON.stringify(found));
