package web

import "html/template"

// frame is what the few pages have in common: light or dark as the reader has it, large
// enough for a thumb.
const frame = `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>{{block "title" .}}Roomful{{end}}</title>
<main>{{block "body" .}}{{end}}</main>
</html>
`

// page is a page with its own title and body.
func page(title, body string) *template.Template {
	t := template.Must(template.New("page").Parse(frame))
	return template.Must(t.Parse(`{{define "title"}}` + title + `{{end}}{{define "body"}}` + body + `{{end}}`))
}

var (
	invitedPage = page(`Come in`, `<h1>{{.Gym}}</h1>
<p>{{if .Name}}This link is for {{.Name}}, as {{.Role}}.{{else}}This link lets one person in, as {{.Role}}.{{end}}</p>
<form method="post">
{{if not .Name}}<p><label>Your name <input name="name" required maxlength="80" autocomplete="name"></label></p>{{end}}
<p><button>Come in on this device</button></p>
</form>
<p>It works once. This device then stays signed in while you use it.</p>`)

	homePage = page(`{{.Gym}}`, `<h1>{{.Gym}}</h1>
<p>You are {{.Name}}, {{.Role}}.</p>
<form method="post" action="/out"><p><button>Sign out here</button></p></form>
<form method="post" action="/out/everywhere"><p><button>Sign out on all your devices</button></p></form>`)

	refusedPage = page(`Not now`, `<h1>{{.Summary}}</h1>
<p>{{.Hint}}</p>`)
)
