package fitcalc

import (
	"errors"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"
)

const module = "example.com/seatline/"

// TestExportedAPI compares what other software can see of the packages with testdata/api, so that no change of it goes
// unnoticed: what is removed or changed there breaks someone's build. Additions are welcome; run this test with -update.
func TestExportedAPI(t *testing.T) {
	const folder = "../testdata/api"
	patterns := []string{"fitcalc/...", "reconcile", "reconcile/catalog", "reconcile/catalog/reader", "reconcile/sheet", "reconcile/publish", "reconcile/matrix", "reconcile/finding", "reconcile/settings"}
	got := map[string]string{}
	for path, lines := range exportedAPI(t, patterns) {
		name := strings.ReplaceAll(strings.TrimPrefix(path, module), "/", "-") + ".txt"
		got[name] = "package " + path + "\n\n" + strings.Join(lines, "\n") + "\n"
	}
	want := map[string]string{}
	files, err := filepath.Glob(folder + "/*.txt")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		want[filepath.Base(file)] = string(data)
	}
	if !*update {
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("the exported API is not what testdata/api says (-was +is); if that is meant, run go test ./fitcalc -run API -update:\n%s", diff)
		}
		return
	}
	for name := range want {
		if _, ok := got[name]; !ok {
			if err := os.Remove(filepath.Join(folder, name)); err != nil {
				t.Error(err)
			}
		}
	}
	for name, text := range got {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
			t.Error(err)
		}
	}
}

// exportedAPI returns the sorted declarations of the packages by their path, as the compiler exports them.
func exportedAPI(t *testing.T, patterns []string) map[string][]string {
	t.Helper()
	args := []string{"list", "-export", "-deps", "-f", "{{.ImportPath}}\t{{.Dir}}\t{{.Export}}\t{{.DepOnly}}"}
	for _, pattern := range patterns {
		args = append(args, module+pattern)
	}
	out, err := exec.Command("go", args...).Output()
	if err != nil {
		var exit *exec.ExitError
		if errors.As(err, &exit) {
			err = fmt.Errorf("%w\n%s", err, exit.Stderr)
		}
		t.Fatal(err)
	}
	exports, wanted := map[string]string{}, []string{}
	for line := range strings.Lines(string(out)) {
		fields := strings.Split(strings.TrimSuffix(line, "\n"), "\t")
		exports[fields[0]] = fields[2]
		if fields[3] == "false" {
			wanted = append(wanted, fields[0])
			parseDir(t, fields[1], 0) // tells the cache of test results what this one depends on
		}
	}
	imports := importer.ForCompiler(token.NewFileSet(), "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	all := map[string][]string{}
	for _, path := range wanted {
		pkg, err := imports.Import(path)
		if err != nil {
			t.Fatal(err)
		}
		all[path] = declarations(pkg)
	}
	return all
}

func declarations(pkg *types.Package) []string {
	in := func(other *types.Package) string {
		if other == pkg {
			return ""
		}
		return other.Name()
	}
	var lines []string
	for _, name := range pkg.Scope().Names() {
		obj := pkg.Scope().Lookup(name)
		if !obj.Exported() {
			continue
		}
		switch obj := obj.(type) {
		case *types.TypeName:
			lines = append(lines, typeDeclarations(obj, in)...)
		case *types.Const:
			lines = append(lines, fmt.Sprintf("%s = %s", types.ObjectString(obj, in), obj.Val().ExactString()))
		default:
			lines = append(lines, types.ObjectString(obj, in))
		}
	}
	slices.Sort(lines)
	return lines
}

// typeDeclarations lists a type, its exported fields and its exported methods. That there are unexported fields is listed,
// because a literal without field names is then no longer possible elsewhere.
func typeDeclarations(obj *types.TypeName, in types.Qualifier) []string {
	head := "type " + obj.Name()
	fields, isStruct := obj.Type().Underlying().(*types.Struct)
	if obj.IsAlias() || !isStruct {
		head = types.ObjectString(obj, in)
	}
	lines := []string{head}
	if isStruct && !obj.IsAlias() {
		lines = []string{head + " struct"}
		hidden := false
		for i := range fields.NumFields() {
			field := fields.Field(i)
			line := head + " struct: " + field.Name() + " " + types.TypeString(field.Type(), in)
			switch {
			case field.Embedded():
				line = head + " struct: embeds " + types.TypeString(field.Type(), in)
			case !field.Exported():
				hidden = true
				continue
			}
			if tag := fields.Tag(i); tag != "" {
				line += " `" + tag + "`"
			}
			lines = append(lines, line)
		}
		if hidden {
			lines = append(lines, head+" struct: unexported fields")
		}
	}
	named, ok := obj.Type().(*types.Named)
	if !ok || obj.IsAlias() {
		return lines
	}
	for method := range named.Methods() {
		if method.Exported() {
			lines = append(lines, types.ObjectString(method, in))
		}
	}
	return lines
}

// TestEverythingIsDocumented sees that every exported function, method, type, constant and variable of fitcalc and below has
// a comment. Of constants and variables one for their group will do, and of the values of an enumeration that of its type. A
// field that is exported has a comment of its own, or is named in that of its type or of another field.
// Error, Unwrap and String say what everyone's do.
func TestEverythingIsDocumented(t *testing.T) {
	checked := 0
	err := filepath.WalkDir(".", func(path string, entry os.DirEntry, err error) error {
		if err != nil || !entry.IsDir() {
			return err
		}
		if entry.Name() == "testdata" {
			return filepath.SkipDir
		}
		fset, files := parseDir(t, path, parser.ParseComments)
		missing := func(pos token.Pos, name string) { t.Errorf("%s: %s has no comment", fset.Position(pos), name) }
		documented := false
		for _, file := range files {
			documented = documented || file.Doc != nil
			for _, decl := range file.Decls {
				checked += undocumented(decl, missing)
			}
		}
		if len(files) > 0 && !documented {
			t.Errorf("%s: the package has no comment", path)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if checked < 700 {
		t.Errorf("only %d declarations found", checked)
	}
}

// undocumented reports the exported names of a declaration that have no comment, and returns how many it looked at.
func undocumented(decl ast.Decl, missing func(token.Pos, string)) (checked int) {
	switch d := decl.(type) {
	case *ast.FuncDecl:
		if !d.Name.IsExported() || d.Recv != nil && (!ast.IsExported(receiver(d.Recv.List[0].Type)) ||
			slices.Contains([]string{"Error", "Unwrap", "String"}, d.Name.Name)) {
			return 0
		}
		if d.Doc == nil {
			missing(d.Pos(), d.Name.Name)
		}
		return 1
	case *ast.GenDecl:
		enumeration := false // from a constant with a type on, those that follow have the type, and are values of it
		for _, spec := range d.Specs {
			switch s := spec.(type) {
			case *ast.TypeSpec:
				if s.Name.IsExported() {
					checked++
					if d.Doc == nil && s.Doc == nil && s.Comment == nil {
						missing(s.Pos(), s.Name.Name)
					}
					checked += undocumentedFields(s, d.Doc.Text()+s.Doc.Text(), missing)
				}
			case *ast.ValueSpec:
				enumeration = d.Tok == token.CONST && (s.Type != nil || enumeration && len(s.Values) == 0)
				for _, name := range s.Names {
					if !name.IsExported() {
						continue
					}
					checked++
					if d.Doc == nil && s.Doc == nil && s.Comment == nil && !enumeration {
						missing(name.Pos(), name.Name)
					}
				}
			}
		}
	}
	return checked
}

// undocumentedFields reports the exported fields of a struct that no comment speaks of, and returns how many it looked at.
func undocumentedFields(spec *ast.TypeSpec, comments string, missing func(token.Pos, string)) (checked int) {
	structure, ok := spec.Type.(*ast.StructType)
	if !ok {
		return 0
	}
	for _, field := range structure.Fields.List {
		comments += field.Doc.Text() + field.Comment.Text()
	}
	named := map[string]bool{}
	for _, word := range strings.FieldsFunc(comments, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		named[word] = true
	}
	for _, field := range structure.Fields.List {
		for _, name := range field.Names {
			if !name.IsExported() {
				continue
			}
			checked++
			own := len(field.Names) == 1 && (field.Doc != nil || field.Comment != nil)
			if !own && !named[name.Name] {
				missing(name.Pos(), spec.Name.Name+"."+name.Name)
			}
		}
	}
	return checked
}

// receiver returns the name of a method's type.
func receiver(expr ast.Expr) string {
	switch e := expr.(type) {
	case *ast.StarExpr:
		return receiver(e.X)
	case *ast.IndexExpr:
		return receiver(e.X)
	case *ast.Ident:
		return e.Name
	}
	return ""
}

// parseDir parses the files of a folder but for tests.
func parseDir(t *testing.T, dir string, mode parser.Mode) (*token.FileSet, []*ast.File) {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	fset := token.NewFileSet()
	var files []*ast.File
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(fset, name, nil, mode)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
	}
	return fset, files
}
