#!/usr/bin/env bash
# Works out the formulas of joints.csv with LibreOffice and writes what they come to, as joints.values.csv; with --check it
# writes nothing and fails where that file differs. Needs soffice; works without a display and leaves nothing behind.
set -euo pipefail
cd "$(dirname "$0")"
here=$PWD

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# Comma, double quote, UTF-8, from line 1; on the way out in full precision, not as shown.
read_csv='Text - txt - csv (StarCalc):44,34,76,1'
write_csv='csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false'
soffice --headless --norestore -env:UserInstallation="file://$work/profile" \
	--infilter="$read_csv" --convert-to "$write_csv" --outdir "$work/values" "$here/joints.csv" >"$work/log" 2>&1 || {
	cat "$work/log" >&2
	exit 1
}
if [ ! -s "$work/values/joints.csv" ]; then
	cat "$work/log" >&2
	echo "soffice wrote no values" >&2
	exit 1
fi
if grep -nE '#(NAME|VALUE|REF|DIV/0|N/A|NUM)|Err:' "$work/values/joints.csv" >&2; then
	echo "a formula could not be worked out" >&2
	exit 1
fi

# Ten digits, and nothing for less than a millionth of a millionth: the last digits are the program's, not the formulas'.
values=$work/joints.values.csv
awk -F, -v OFS=, '{
	for (i = 1; i <= NF; i++) {
		gsub(/^"|"$/, "", $i)
		if ($i ~ /^-?[0-9.]+(E[-+][0-9]+)?$/) {
			x = $i + 0
			$i = (x < 1e-12 && x > -1e-12) ? 0 : sprintf("%.10g", x)
		}
	}
	print
}' "$work/values/joints.csv" >"$values"

if [ "${1:-}" = --check ]; then
	diff -u joints.values.csv "$values" || {
		echo "joints.values.csv is not what joints.csv comes to; run testdata/formulas/recalculate.sh" >&2
		exit 1
	}
	exit 0
fi
cp "$values" joints.values.csv
