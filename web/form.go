package web

import (
	"roomful/exchange"
)

// form is what a route takes and gives in JSON, by a value of each; nil for none.
type form struct {
	takes, gives any
	asks         []string // what may stand behind the question mark
}

// several is a list under a name, as routes give it.
type several struct {
	name string
	of   any
}

// anything is JSON whose form somebody else's standard says.
type anything struct{}

// forms are those of the routes in the table that speak JSON.
var forms = map[string]form{
	"POST /enter":                  {takes: entering{}},
	"POST /enter/passkey/new":      {gives: anything{}},
	"POST /enter/passkey":          {takes: anything{}},
	"GET /passkeys":                {gives: exchange.Passkeys{}},
	"POST /passkeys/new":           {gives: anything{}},
	"POST /passkeys":               {takes: anything{}, gives: exchange.Passkeys{}},
	"POST /password":               {takes: choosing{}, gives: known{}},
	"POST /invitations":            {takes: inviting{}, gives: invitation{}},
	"GET /people":                  {gives: several{"people", person{}}},
	"GET /people/{person}":         {gives: told{}},
	"PUT /people/{person}":         {takes: telling{}, gives: told{}},
	"GET /kit":                     {gives: text{}},
	"PUT /kit":                     {takes: saving{}, gives: text{}},
	"GET /settings":                {gives: text{}},
	"PUT /settings":                {takes: saving{}, gives: text{}},
	"GET /classes":                 {gives: several{"classes", class{}}, asks: []string{"from", "to"}},
	"PUT /classes/{class}":         {takes: putting{}, gives: class{}},
	"GET /sheets":                  {gives: several{"sheets", sheet{}}},
	"GET /sheets/{name}":           {gives: sheet{}},
	"PUT /sheets/{name}":           {takes: saving{}, gives: saved{}},
	"POST /scores":                 {takes: posted{}, gives: stored{}},
	"GET /sheets/{name}/scores":    {gives: listed{}, asks: []string{"before", "class"}},
	"GET /sheets/{name}/standings": {gives: exchange.Boards{}},
	"GET /sheets/{name}/otherwise": {gives: exchange.OtherwiseDay{}, asks: []string{"class"}},
	"GET /sheets/{name}/after":     {gives: exchange.AfterClass{}, asks: []string{"class"}},
	"GET /record/{person}":         {gives: listed{}, asks: []string{"before"}},
	"GET /sheets/{name}/versions":  {gives: exchange.Lineup{}, asks: []string{"piece", "class", "home"}},
	"GET /sheets/{name}/hour":      {gives: exchange.Hour{}, asks: []string{"piece", "class"}},
	"GET /abilities/{person}":      {gives: exchange.LearntAthlete{}},
	"GET /learning":                {gives: exchange.Learning{}},
	"POST /people/drop-in":         {takes: dropping{}, gives: dropIn{}},
	"POST /sheets/{name}/reading":  {takes: typing{}, gives: typed{}},
	"POST /sheets/{name}/scores":   {takes: many{}, gives: listed{}},
	"GET /me":                      {gives: own{}},
	"POST /me/erase":               {takes: erasing{}},
	"GET /accounts":                {gives: several{"accounts", signer{}}},
	"GET /trail":                   {gives: trail{}, asks: []string{"after"}},
	"GET /openapi.json":            {gives: anything{}},

	"GET /people/{person}/limits":                  {gives: several{"limits", limit{}}},
	"PUT /people/{person}/limits/{limit}":          {takes: limiting{}, gives: limit{}},
	"PUT /classes/{class}/places/{person}":         {gives: class{}},
	"DELETE /classes/{class}/places/{person}":      {gives: class{}},
	"POST /classes/{class}/places/{person}/missed": {gives: class{}},
	"GET /sheets/{name}/revisions":                 {gives: several{"revisions", revision{}}},
	"POST /sheets/{name}/editions":                 {takes: publishing{}, gives: edition{}},
	"GET /sheets/{name}/editions":                  {gives: several{"editions", edition{}}},
	"GET /sheets/{name}/notes":                     {gives: several{"notes", note{}}},
	"POST /sheets/{name}/notes":                    {takes: saying{}, gives: note{}},
	"GET /sheets/{name}/overrides":                 {gives: several{"overrides", override{}}},
	"PUT /sheets/{name}/overrides/{person}":        {takes: overriding{}, gives: override{}},
	"DELETE /sheets/{name}/overrides/{person}":     {asks: []string{"piece"}},
	"POST /sheets/{name}/scores/reading":           {takes: dictated{}, gives: several{"lines", heard{}}},
	"POST /sheets/{name}/sore/{person}":            {takes: hurting{}, gives: relief{}, asks: []string{"class"}},
	"GET /sheets/{name}/load/{person}":             {gives: exchange.OwnLoad{}, asks: []string{"movement", "set", "piece", "class"}},
	"GET /sheets/{name}/beat/{person}":             {gives: target{}, asks: []string{"piece"}},
	"GET /sheets/{name}/compare/{person}":          {gives: exchange.Comparisons{}},
	"GET /sheets/{name}/choices/{person}":          {gives: choices{}, asks: []string{"piece", "class", "home"}},
	"PUT /sheets/{name}/choices/{person}":          {takes: picking{}, gives: choices{}, asks: []string{"class"}},
	"DELETE /sheets/{name}/choices/{person}":       {asks: []string{"piece"}},
}
