package garment

func (w *work) costs() {}
