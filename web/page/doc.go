// Package page draws what people see of a gym in a browser: a struct for each page goes
// in, HTML comes out. Nothing is looked up or computed here; whoever fills a struct has
// decided what its reader may see.
//
// A page is a type of this package and a template of the same name in lower case: [Sheets]
// is drawn by sheets.tmpl. [Write] puts a [Frame] around it, [WritePart] draws a piece of a
// page on its own, for htmx. What pages load stands in assets, under names that change
// with what is in them, so that browsers keep it for good.
//
// Every page works without JavaScript: forms are sent, links are followed. Modules make
// it better and are told apart by attributes: data-live names the kinds of change after
// which a part is fetched again (live.js), data-keep a field whose words outlive a lost
// connection (keep.js), data-send a form that leads to another page when it was taken, and
// is sent beside this one (send.js).
package page
