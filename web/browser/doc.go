// Package browser looks at pages as people do: in Debian's chromium, with a size, a theme, a
// keyboard, a thumb and a line that may be slow or break, and holds them against judges
// from outside.
//
// It is for tests. It knows nothing of the gym: a [Tab] goes to an address, and what it
// shows there is judged by
//
//   - [Tab.Axe]: axe-core, against WCAG 2.2 at levels A and AA and its best practice;
//   - [Validate]: html-validate, against the HTML standard, on the bytes that were served;
//   - [Tab.Budget]: what came over the wire, what moved, what the console said;
//   - [Tab.Keyboard]: a walk by the Tab key;
//   - [Tab.Targets]: whether a thumb can hit what is to be pressed;
//   - [Tab.Wide]: whether anything sticks out sideways;
//   - [Contrast]: the published formula, for colours that are only in a style sheet.
//
// Each answers with findings that can be read without opening the page.
//
// It stands beside web, not in its tests, because papers, screens and pages are all
// looked at in the same way. One chromium is started for all the tests of a package (see
// [Main]); each tab has cookies and a cache of its own. Judges run in a world beside the
// page's scripts, which its content security policy does not speak of: the policy is
// held as strictly as for anybody.
//
// Without chromium, node or npm a test that needs them is skipped, unless the variable CI
// is set: then it fails.
package browser
