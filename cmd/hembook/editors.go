package main

import (
	"encoding/json"
	"path/filepath"
	"strings"

	"hembook/internal/record"
)

// schemaFolder is where the schemas lie in a workroom, for editors that complete and
// underline records while they are written.
const schemaFolder = ".schema"

// writeSchemas writes the schema of each kind of YAML file beside the records, and the
// settings by which an editor that reads .vscode/settings.json finds them.
func writeSchemas(dir string) error {
	files := map[string]string{}
	for _, kind := range record.FileKinds {
		if !strings.HasSuffix(kind.Where, ".yaml") {
			continue // headers of Markdown, which editors take for no YAML
		}
		text, err := record.Schema(kind.Name)
		if err != nil {
			return err
		}
		name := schemaFolder + "/" + kind.Name + ".json"
		if err := writeNew(filepath.Join(dir, filepath.FromSlash(name)), text); err != nil {
			return err
		}
		files["./"+name] = strings.Replace(kind.Where, "NAME", "*", 1)
	}
	settings, err := json.MarshalIndent(map[string]any{"yaml.schemas": files}, "", "  ")
	if err != nil {
		return err
	}
	return writeNew(filepath.Join(dir, ".vscode", "settings.json"), append(settings, '\n'))
}
