package main

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"hembook/internal/record"
)

// schemaFolder is where the schemas lie in a workroom, for editors that complete and
// underline records while they are written.
const schemaFolder = ".schema"

// writeSchemas writes the schema of each kind of YAML file beside the records, and the
// settings by which an editor that reads .vscode/settings.json finds them. Schemas that
// lie there already are written anew, settings are somebody's own.
func writeSchemas(dir string) error {
	folder := filepath.Join(dir, schemaFolder)
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return err
	}
	files := map[string]string{}
	for _, kind := range record.FileKinds {
		if !strings.HasSuffix(kind.Where, ".yaml") {
			continue // headers of Markdown, which editors take for no YAML
		}
		text, err := record.Schema(kind.Name)
		if err != nil {
			return err
		}
		name := kind.Name + ".json"
		if err := writeWhole(filepath.Join(folder, name), text); err != nil {
			return err
		}
		files["./"+schemaFolder+"/"+name] = strings.Replace(kind.Where, "NAME", "*", 1)
	}
	settings, err := json.MarshalIndent(map[string]any{"yaml.schemas": files}, "", "  ")
	if err != nil {
		return err
	}
	err = writeNew(filepath.Join(dir, ".vscode", "settings.json"), append(settings, '\n'))
	if errors.Is(err, fs.ErrExist) {
		return nil
	}
	return err
}
