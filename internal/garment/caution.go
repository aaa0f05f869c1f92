package garment

func (w *work) cautions() {}
