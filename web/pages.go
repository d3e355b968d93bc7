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

	enterPage = page(`Come back in`, `<h1>Come back in</h1>
{{if .Passkeys}}<p><button type="button" data-passkey="use" hidden>Use a passkey</button></p>
{{end}}<form method="post" action="/enter">
<p><label>Your name <input name="account" required maxlength="200" autocomplete="username"></label></p>
<p><label>Password <input name="password" type="password" required maxlength="1000" autocomplete="current-password"></label></p>
<p><label>Gym, where there are several <input name="gym" maxlength="200" autocomplete="organization"></label></p>
<p><button>Come in</button></p>
</form>
<p>Owners and coaches may have a password. Members come back by a passkey, or by a new link from their coach.</p>
{{if .Passkeys}}<script type="module" src="/passkey.js" nonce="{{.Nonce}}"></script>{{end}}`)

	homePage = page(`{{.Gym}}`, `<h1>{{.Gym}}</h1>
<p>You are {{.Name}}, {{.Role}}.</p>
{{if .Password}}<form method="post" action="/password">
<p><label>A password to come back with <input name="password" type="password" required minlength="10" maxlength="1000" autocomplete="new-password"></label> <button>Keep it</button></p>
</form>
{{end}}{{if .Passkeys}}<p><button type="button" data-passkey="make" hidden>Make a passkey on this device</button></p>
<script type="module" src="/passkey.js" nonce="{{.Nonce}}"></script>
{{end}}<form method="post" action="/out"><p><button>Sign out here</button></p></form>
<form method="post" action="/out/everywhere"><p><button>Sign out on all your devices</button></p></form>`)

	refusedPage = page(`Not now`, `<h1>{{.Summary}}</h1>
<p>{{.Hint}}</p>
{{if .Enter}}<p><a href="/enter">Other ways to come back in</a></p>{{end}}`)
)
