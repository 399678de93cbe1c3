package web

import "berthwright/drawing"

// faces are the words for the faces, in the order of package fonts.
var faces = [...]string{"regular", "semibold", "italic", "bold"}

// viewScene puts a scene on the wire.
func viewScene(s drawing.Scene, revision int) Scene {
	v := Scene{ID: s.ID, View: s.View, State: s.State, Title: s.Title, Desc: s.Desc, Scale: s.Scale, Revision: revision,
		Extent: Box{X0: s.Extent.X0, Y0: s.Extent.Y0, X1: s.Extent.X1, Y1: s.Extent.Y1}, Prims: make([]Prim, len(s.Prims))}
	for i, p := range s.Prims {
		v.Prims[i] = viewPrim(p)
	}
	return v
}

func viewPrim(p drawing.Prim) Prim {
	v := Prim{ID: p.ID, In: p.In, Role: string(p.Role), Layer: p.Layer, Path: p.Doc, Title: p.Title, Focus: p.Focus, Depth: p.Depth}
	switch p.Kind {
	case drawing.Group:
		v.Kind = "group"
	case drawing.Path:
		v.Kind, v.D, v.Fill = "path", p.D.String(), p.Fill.String()
	case drawing.Text:
		v.Kind, v.X, v.Y, v.Size, v.Turn, v.Text = "text", p.X, p.Y, p.Size, p.Turn, p.Text
		v.Anchor = [...]string{drawing.Start: "start", drawing.Middle: "middle", drawing.End: "end"}[p.Anchor]
		v.Face = faces[p.Face]
	}
	return v
}
