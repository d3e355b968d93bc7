// Package webtest is a served gym to look at, and the scenes to look at it in.
//
// A [Gym] is web's server over a database that goes away with the test: [Demo] has the
// invented gym of package demo on the morning of a day that nobody has scored on yet,
// [Empty] has an owner and nothing else. A tab of package browser comes in by an
// invitation and can then click about:
//
//	g := webtest.Demo(t)
//	tab := g.Tab(t, store.Coach, browser.View{Size: browser.Phone})
//	tab.Go(g.URL + "/sheets")
//	tab.Click("Eight Ribs")
//
// [Scenes] names every page and state of a page that people see: a line to a scene. Each
// is held against every judge of package browser by the tests here, and drawn into a folder
// by
//
//	go test ./web/webtest -run TestLook -args -to DIR
//
// A test of package web fails when one of its pages is in no scene.
package webtest
