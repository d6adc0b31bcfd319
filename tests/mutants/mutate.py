# SPDX-License-Identifier: GPL-3.0-or-later
"""Every mutant of a C file in one: which of them is at work is asked as the program runs.

A relation, a sum, a number, a condition or a statement becomes an expression that does
what it did, or something else where its mutant's number is the one at work: so a file is
compiled once, not once a mutant. clang says where things stand; what comes out of a macro, or
stands where C wants a constant, is left alone.
"""
import bisect
import collections
import re
import subprocess

from clang import cindex

Mutant = collections.namedtuple("Mutant", "number file line kind was becomes function")
Edit = collections.namedtuple("Edit", "at order text")

HEAD = """extern int carpace_mutant;
extern unsigned char carpace_mutant_seen[];
#define MUTANT(n) (carpace_mutant_seen[n] = 1, carpace_mutant == (n))
"""
BORDER = {"<": "<=", "<=": "<", ">": ">=", ">=": ">"}
CONTRARY = {"<": ">=", "<=": ">", ">": "<=", ">=": "<", "==": "!=", "!=": "=="}
OTHER_SUM = {"+": "-", "-": "+", "*": "+", "/": "*", "%": "/"}
WHOLE, FRACTION = r"\d+", r"\d+\.\d*(e-?\d+)?|\d+e-?\d+"
KIND = cindex.CursorKind
STATEMENTS = (KIND.COMPOUND_STMT, KIND.IF_STMT, KIND.FOR_STMT, KIND.WHILE_STMT, KIND.CASE_STMT, KIND.DEFAULT_STMT)


class File:
    def __init__(self, path, name, first, arguments):
        self.name = name
        with open(path, encoding="utf-8") as file:
            self.text = file.read()
        self.bytes = self.text.encode()
        self.lines = [i for i, c in enumerate(self.bytes) if c == 10]
        self.next = first
        self.mutants = []
        self.edits = []
        self.function = ""
        unit = cindex.Index.create().parse(path, args=arguments)
        faults = [d.spelling for d in unit.diagnostics if d.severity >= cindex.Diagnostic.Error]
        if faults:
            raise SystemExit("%s: %s" % (path, faults[0]))
        for cursor in unit.cursor.get_children():
            if cursor.kind == KIND.FUNCTION_DECL and cursor.is_definition() and cursor.location.file.name == path:
                self.function = cursor.spelling
                self.walk(cursor, None)
        self.macros(path)

    def span(self, cursor):
        return cursor.extent.start.offset, cursor.extent.end.offset

    def source(self, start, end):
        return self.bytes[start:end].decode()

    def new(self, at, kind, was, becomes):
        line = bisect.bisect(self.lines, at) + 1
        self.mutants.append(Mutant(self.next, self.name, line, kind, was, becomes, self.function))
        self.next += 1
        return self.next - 1

    def around(self, start, end, before, after):
        """Outer texts open earlier and close later than inner ones of the same place."""
        self.edits.append(Edit(start, (2, -(end - start), len(self.edits)), before))
        self.edits.append(Edit(end, (1, end - start, len(self.edits)), after))

    def replace(self, start, end, text):
        self.edits.append(Edit(start, (3, 0, end), text))

    def walk(self, cursor, parent):
        if cursor.kind == KIND.VAR_DECL and cursor.storage_class == cindex.StorageClass.STATIC:
            return
        if cursor.kind == KIND.ENUM_DECL:
            return  # C wants constants
        if cursor.kind == KIND.CASE_STMT:
            for child in list(cursor.get_children())[1:]:
                self.walk_statement(child, cursor)
            return  # not its constant
        if cursor.kind == KIND.BINARY_OPERATOR:
            self.binary(cursor)
        elif cursor.kind == KIND.UNARY_OPERATOR:
            self.negation(cursor)
        elif cursor.kind in (KIND.INTEGER_LITERAL, KIND.FLOATING_LITERAL):
            self.number(cursor)
        elif cursor.kind in (KIND.IF_STMT, KIND.CONDITIONAL_OPERATOR):
            self.condition(list(cursor.get_children())[0])
        is_array = cursor.kind == KIND.VAR_DECL and cursor.type.kind == cindex.TypeKind.CONSTANTARRAY
        for child in cursor.get_children():
            if not is_array or child.kind == KIND.INIT_LIST_EXPR:
                self.walk_statement(child, cursor)

    def walk_statement(self, cursor, parent):
        if parent.kind in STATEMENTS and self.is_body(cursor, parent):
            self.statement(cursor)
        self.walk(cursor, parent)

    def is_body(self, cursor, parent):
        """A call or assignment that stands as a statement, not in a head."""
        if cursor.kind not in (KIND.CALL_EXPR, KIND.BINARY_OPERATOR, KIND.COMPOUND_ASSIGNMENT_OPERATOR, KIND.UNARY_OPERATOR):
            return False
        end = self.span(cursor)[1]
        after = re.match(rb"\s*;", self.bytes[end:])
        if after is None:
            return False
        if parent.kind in (KIND.FOR_STMT, KIND.WHILE_STMT, KIND.IF_STMT):
            return list(parent.get_children())[-1] == cursor or parent.kind == KIND.IF_STMT
        return True

    def statement(self, cursor):
        start, end = self.span(cursor)
        text = self.source(start, end)
        if not re.match(r"[\w(*&+-]", text):
            return
        semicolon = end + self.bytes[end:].index(b";") + 1
        number = self.new(start, "dropped", text, "")
        self.around(start, semicolon, "{ if (!MUTANT (%d)) " % number, " }")

    def operator(self, cursor):
        left, right = list(cursor.get_children())
        start, end = self.span(left)[1], self.span(right)[0]
        between = self.source(start, end)
        return left, right, start, end, between.strip()

    def binary(self, cursor):
        left, right, start, end, sign = self.operator(cursor)
        if self.span(cursor) != (self.span(left)[0], self.span(right)[1]):
            return
        if sign in ("&&", "||"):
            self.logic(cursor, start, end, sign)
        elif sign in CONTRARY:
            others = [BORDER[sign]] if sign in BORDER else []
            self.values(cursor, start, end, sign, others + [CONTRARY[sign]], "relation")
        elif sign in OTHER_SUM and not any(
                side.type.get_canonical().kind in (cindex.TypeKind.POINTER, cindex.TypeKind.CONSTANTARRAY,
                                                   cindex.TypeKind.INCOMPLETEARRAY)
                for side in (left, right)):
            if sign == "%" and cursor.type.get_canonical().kind == cindex.TypeKind.DOUBLE:
                return
            self.values(cursor, start, end, sign, [OTHER_SUM[sign]], "sum")

    def logic(self, cursor, start, end, sign):
        number = self.new(start, "logic", sign, "||" if sign == "&&" else "&&")
        asks = "!MUTANT (%d)" if sign == "&&" else "MUTANT (%d)"
        name = "l%d" % number
        self.around(*self.span(cursor), "({ _Bool %s = (" % name, "; })")
        self.replace(start, end, "); %s == %s ? (_Bool) (" % (name, asks % number))
        self.edits.append(Edit(self.span(cursor)[1], (1, self.span(cursor)[1] - self.span(cursor)[0] - 0.5, 0), ") : %s" % name))

    def values(self, cursor, start, end, sign, others, kind):
        numbers = [self.new(start, kind, sign, other) for other in others]
        left, right = "l%d" % numbers[0], "r%d" % numbers[0]
        asks = "".join("MUTANT (%d) ? %s %s %s : " % (number, left, other, right) for number, other in zip(numbers, others))
        self.around(*self.span(cursor), "({ __auto_type %s = (" % left,
                    "); %s%s %s %s; })" % (asks, left, sign, right))
        self.replace(start, end, "); __auto_type %s = (" % right)

    def negation(self, cursor):
        start, end = self.span(cursor)
        if self.bytes[start:start + 1] == b"!":
            number = self.new(start, "negation", self.source(start, end), "without !")
            self.around(start, end, "(MUTANT (%d) ^ " % number, ")")

    def condition(self, cursor):
        start, end = self.span(cursor)
        text = self.source(start, end)
        if cursor.kind == KIND.BINARY_OPERATOR or text.startswith("!"):
            return
        number = self.new(start, "condition", text, "!(%s)" % text)
        self.around(start, end, "(MUTANT (%d) ^ !!(" % number, "))")

    def number(self, cursor):
        start, end = self.span(cursor)
        text = self.source(start, end)
        if re.fullmatch(WHOLE, text):
            self.count(start, end, text)
        elif re.fullmatch(FRACTION, text):
            self.measure(start, end, text)

    def measure(self, start, end, text):
        """A hundredth more: what an outside source gives is told to the last digit, or nearly."""
        other = "%.17g" % (float(text) * 1.01 or 0.01)
        self.replace(start, end, "(MUTANT (%d) ? %s : %s)" % (self.new(start, "number", text, other), other, text))

    def count(self, start, end, text):
        more, less = self.new(start, "number", text, str(int(text) + 1)), self.new(start, "number", text, str(int(text) - 1))
        self.replace(start, end, "(MUTANT (%d) ? %d : MUTANT (%d) ? %d : %s)" % (more, int(text) + 1, less, int(text) - 1, text))

    def macros(self, path):
        """Numbers of a file's own #defines, where all of their uses can be asked about."""
        for match in re.finditer(rb"^#define (\w+) +\(?([\d.]+(?:e-?\d+)?)(?![\w.])", self.bytes, re.M):
            uses = re.findall(rb"[^\n]*\b" + match.group(1) + rb"\b[^\n]*", self.bytes[match.end():])
            constant = [use for use in uses if re.search(rb"\[[^\]]*\b" + match.group(1) + rb"\b|case |^#|static ", use)]
            if not constant:
                self.function = match.group(1).decode()
                text = match.group(2).decode()
                (self.count if re.fullmatch(WHOLE, text) else self.measure) (match.start(2), match.end(2), text)

    def mutated(self):
        out, at = [], 0
        for edit in sorted(self.edits, key=lambda edit: (edit.at, edit.order)):
            if edit.at > at:
                out.append(self.source(at, edit.at))
                at = edit.at
            out.append(edit.text)
            if edit.order[0] == 3:
                at = edit.order[2]
        return HEAD + "#line 1\n" + "".join(out) + self.source(at, len(self.bytes))


def arguments_of(top):
    inner = subprocess.run(["gcc", "-print-file-name=include"], capture_output=True, text=True, check=True).stdout.strip()
    return ["-std=c11", "-isystem", inner, "-I%s/include" % top, "-I%s/src" % top, "-I%s/src/core" % top]
