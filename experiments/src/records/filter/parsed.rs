//! From the text of a filter to what is asked of rows, or to what is wrong with it.

use scenarios::shown;
use sqlparser::ast::{
    BinaryOperator, Expr, Function, FunctionArg, FunctionArgExpr, FunctionArgumentList, FunctionArguments,
    InTarget, UnaryOperator, Value,
};
use sqlparser::dialect::GenericDialect;
use sqlparser::parser::Parser;
use sqlparser::tokenizer::{Token, Tokenizer};

use super::compiled::{Asked, Columns, Comparison, Kind};
use super::query::{behind_where, remark};
use crate::error::Error;
use crate::wording::{guess, listed};

/// What a filter may hold, told where it holds something else.
const ALLOWED: &str = "comparisons of columns (=, <>, <, <=, >, >=), AND, OR, NOT, IN, BETWEEN, LIKE, IS NULL, \
                       happened(...) and count(...)";
/// Names that are told of those that there are.
const NAMED: usize = 12;

/// A filter, checked.
#[derive(Clone, Debug, PartialEq)]
pub struct Filter {
    /// What is asked of a possession.
    pub(super) asked: Asked,
    /// The columns of possessions that it reads, by name.
    pub(super) columns: Vec<String>,
    /// What is asked of events.
    pub(super) questions: Vec<Asked>,
    /// The columns of events that these read.
    pub(super) event_columns: Vec<String>,
}

/// What is being read, and what has been found in it.
struct Reading<'a> {
    possessions: &'a Columns,
    /// None where no events are recorded.
    events: Option<&'a Columns>,
    filter: Filter,
    /// In the brackets of `happened` or `count`.
    inside: bool,
}

impl Filter {
    /// From its text, for records with these columns.
    ///
    /// # Errors
    /// It is no filter, or names something that there is not.
    pub fn parse(text: &str, possessions: &Columns, events: Option<&Columns>) -> Result<Self, Error> {
        let wrong =
            |what: String| Error::Option(format!("the filter {} cannot be used: {what}", shown(text)));
        let refused = |error: &dyn std::fmt::Display| {
            let told = error.to_string();
            let told = told.strip_prefix("sql parser error: ").unwrap_or(&told).to_owned();
            wrong(format!("{told}; allowed are {ALLOWED}"))
        };
        let dialect = GenericDialect {};
        let tokens =
            Tokenizer::new(&dialect, text).tokenize_with_location().map_err(|error| refused(&error))?;
        if let Some(remark) = tokens.iter().find_map(remark) {
            return Err(wrong(format!("found the remark {}, allowed are {ALLOWED}", shown(&remark))));
        }
        let tokens = behind_where(tokens).map_err(wrong)?;
        let mut parser = Parser::new(&dialect).with_tokens_with_locations(tokens);
        let expression = parser.parse_expr().map_err(|error| refused(&error))?;
        let rest = parser.peek_token().token;
        if rest != Token::EOF {
            return Err(wrong(format!(
                "it goes on with {rest} where it should end; join two by AND or OR; orders, groups and sums are for a \
                 database, which reads the files as well"
            )));
        }
        let filter = Self {
            asked: Asked::Flag(true),
            columns: Vec::new(),
            questions: Vec::new(),
            event_columns: Vec::new(),
        };
        let mut reading = Reading { possessions, events, filter, inside: false };
        let (asked, kind) = reading.read(&expression).map_err(wrong)?;
        if kind != Kind::Flag {
            return Err(wrong(format!("it comes to {}, allowed is what is true or false", kind.told())));
        }
        Ok(Self { asked, ..reading.filter })
    }

    /// Whether it looks into events.
    #[must_use]
    pub fn asks_events(&self) -> bool {
        !self.questions.is_empty()
    }
}

impl Reading<'_> {
    /// What an expression asks, and what it comes to.
    fn read(&mut self, expression: &Expr) -> Result<(Asked, Kind), String> {
        match expression {
            Expr::Nested(inner) => self.read(inner),
            Expr::Identifier(name) => self.column(&name.value),
            Expr::CompoundIdentifier(parts) => {
                let parts: Vec<&str> = parts.iter().map(|part| part.value.as_str()).collect();
                self.column(&parts.join("."))
            }
            Expr::Value(value) => constant(&value.value),
            Expr::UnaryOp { op: UnaryOperator::Minus, expr } => match self.read(expr)? {
                (Asked::Number(number), kind) => Ok((Asked::Number(-number), kind)),
                _ => Err(format!("{expression} is no number")),
            },
            Expr::UnaryOp { op: UnaryOperator::Not, expr } => {
                Ok((negated(self.flag(expr)?, true), Kind::Flag))
            }
            Expr::BinaryOp { left, op, right } => self.joined(left, op, right),
            Expr::IsNull(inner) => Ok((Asked::IsNothing(self.read(inner)?.0.into()), Kind::Flag)),
            Expr::IsNotNull(inner) => {
                Ok((negated(Asked::IsNothing(self.read(inner)?.0.into()), true), Kind::Flag))
            }
            Expr::In { expr, target: InTarget::List(list), negated: not, global: false } => {
                let mut any = Asked::Flag(false);
                for one in list {
                    let equal = self.compared(expr, Comparison::Equal, one)?;
                    any = Asked::Or(any.into(), equal.into());
                }
                Ok((negated(any, *not), Kind::Flag))
            }
            Expr::Between { expr, negated: not, low, high } => {
                let from = self.compared(expr, Comparison::AtLeast, low)?;
                let to = self.compared(expr, Comparison::AtMost, high)?;
                Ok((negated(Asked::And(from.into(), to.into()), *not), Kind::Flag))
            }
            Expr::Like { negated: not, any: false, expr, pattern, escape_char: None } => {
                let (asked, kind) = self.read(expr)?;
                match self.read(pattern)? {
                    (Asked::Text(pattern), _) if kind == Kind::Text => {
                        Ok((negated(Asked::Like(asked.into(), pattern), *not), Kind::Flag))
                    }
                    _ => Err(format!("{expression}: LIKE is asked of a text, with a pattern in '...'")),
                }
            }
            Expr::Function(function) => self.of_events(function),
            _ => Err(format!("found {expression}, allowed are {ALLOWED}")),
        }
    }

    /// An expression that has to be true or false.
    fn flag(&mut self, expression: &Expr) -> Result<Asked, String> {
        let (asked, kind) = self.read(expression)?;
        if kind == Kind::Flag {
            Ok(asked)
        } else {
            Err(format!("{expression} is {}, not true or false", kind.told()))
        }
    }

    fn joined(&mut self, left: &Expr, op: &BinaryOperator, right: &Expr) -> Result<(Asked, Kind), String> {
        let comparison = match op {
            BinaryOperator::And => {
                let (one, other) = (self.flag(left)?, self.flag(right)?);
                return Ok((Asked::And(one.into(), other.into()), Kind::Flag));
            }
            BinaryOperator::Or => {
                let (one, other) = (self.flag(left)?, self.flag(right)?);
                return Ok((Asked::Or(one.into(), other.into()), Kind::Flag));
            }
            BinaryOperator::Eq => Comparison::Equal,
            BinaryOperator::NotEq => Comparison::Unequal,
            BinaryOperator::Lt => Comparison::Less,
            BinaryOperator::LtEq => Comparison::AtMost,
            BinaryOperator::Gt => Comparison::More,
            BinaryOperator::GtEq => Comparison::AtLeast,
            _ => return Err(format!("found {op}, allowed are {ALLOWED}")),
        };
        Ok((self.compared(left, comparison, right)?, Kind::Flag))
    }

    /// Two values of one kind, compared; a text that a column can never hold is refused.
    fn compared(&mut self, left: &Expr, how: Comparison, right: &Expr) -> Result<Asked, String> {
        let ((one, kind), (other, own)) = (self.read(left)?, self.read(right)?);
        if kind != own {
            return Err(format!("{left} is {}, and {right} is {}", kind.told(), own.told()));
        }
        if matches!(how, Comparison::Equal | Comparison::Unequal) {
            self.check_known(&one, &other)?;
            self.check_known(&other, &one)?;
        }
        Ok(Asked::Compare(one.into(), how, other.into()))
    }

    fn check_known(&self, column: &Asked, text: &Asked) -> Result<(), String> {
        let (Asked::Column(place), Asked::Text(text)) = (column, text) else { return Ok(()) };
        let (read, table) = self.at();
        let known = table.iter().find(|own| own.name == read[*place]);
        let Some(column) = known.filter(|own| !own.known.is_empty() && !own.known.contains(text)) else {
            return Ok(());
        };
        let names: Vec<&str> = column.known.iter().map(String::as_str).collect();
        Err(format!("{}: found '{}'{}", column.name, shown(text), told(text, &names)))
    }

    /// The columns that have been read of the table at hand, and all that it has.
    fn at(&self) -> (&[String], &Columns) {
        match self.events.filter(|_| self.inside) {
            Some(events) => (&self.filter.event_columns, events),
            None => (&self.filter.columns, self.possessions),
        }
    }

    fn column(&mut self, name: &str) -> Result<(Asked, Kind), String> {
        let (read, table) = self.at();
        let Some(column) = table.iter().find(|column| column.name == name) else {
            let names: Vec<&str> = table.iter().map(|column| column.name.as_str()).collect();
            let has = |table: &Columns| table.iter().any(|column| column.name == name);
            if !self.inside && self.events.is_some_and(has) {
                return Err(format!(
                    "possessions have no {name}, their events have: ask by happened(...) or count(...), such as \
                     happened({name} ...)"
                ));
            }
            if self.inside && has(self.possessions) {
                return Err(format!(
                    "events have no {name}, their possession has: ask for it outside of the brackets"
                ));
            }
            let table = if self.inside { "events" } else { "possessions" };
            return Err(format!("no column of {table} is called {}{}", shown(name), told(name, &names)));
        };
        let (kind, there) = (column.kind, read.iter().position(|own| own == name));
        let columns = if self.inside { &mut self.filter.event_columns } else { &mut self.filter.columns };
        let place = there.unwrap_or_else(|| {
            columns.push(name.into());
            columns.len() - 1
        });
        Ok((Asked::Column(place), kind))
    }

    /// `happened(...)` and `count(...)`.
    fn of_events(&mut self, function: &Function) -> Result<(Asked, Kind), String> {
        // All that SQL lets stand with a function is named here, so that nothing of it is passed over.
        let Function { name, uses_odbc_syntax, parameters, args, within_group, filter, null_treatment, over } =
            function;
        let name = name.to_string().to_lowercase();
        if !["happened", "count"].contains(&name.as_str()) {
            let near = guess(&name, &["happened", "count"]);
            return Err(format!(
                "found {}(...){near}; allowed are happened(...) and count(...)",
                shown(&name)
            ));
        }
        if self.inside {
            return Err(format!(
                "{name}(...) stands in the brackets of another; join what one event must be by AND"
            ));
        }
        if self.events.is_none() {
            return Err(format!("{name}(...) asks for events, and none are recorded (--records events)"));
        }
        let is_bare = !uses_odbc_syntax
            && *parameters == FunctionArguments::None
            && within_group.is_empty()
            && filter.is_none()
            && null_treatment.is_none()
            && over.is_none();
        let FunctionArguments::List(FunctionArgumentList { duplicate_treatment: None, args, clauses }) = args
        else {
            return Err(one_question(&name));
        };
        let [FunctionArg::Unnamed(FunctionArgExpr::Expr(inner))] = args.as_slice() else {
            return Err(one_question(&name));
        };
        if !is_bare || !clauses.is_empty() {
            return Err(one_question(&name));
        }
        self.inside = true;
        let question = self.flag(inner);
        self.inside = false;
        self.filter.questions.push(question?);
        let count = Asked::Count(self.filter.questions.len() - 1);
        if name == "count" {
            return Ok((count, Kind::Number));
        }
        Ok((Asked::Compare(count.into(), Comparison::AtLeast, Asked::Number(1.0).into()), Kind::Flag))
    }
}

fn one_question(name: &str) -> String {
    format!(
        "{name}(...) needs one question about an event in its brackets, such as event = 'shot', and nothing else; what \
         the event must be besides goes into the brackets, too, with AND"
    )
}

fn constant(value: &Value) -> Result<(Asked, Kind), String> {
    match value {
        Value::Number(text, false) => {
            let number = text.parse::<f64>().map_err(|_| format!("{text} is no number"))?;
            Ok((Asked::Number(number), Kind::Number))
        }
        Value::SingleQuotedString(text) => Ok((Asked::Text(text.clone()), Kind::Text)),
        Value::Boolean(flag) => Ok((Asked::Flag(*flag), Kind::Flag)),
        _ => Err(format!("found {value}, allowed are numbers, '...', true and false")),
    }
}

fn negated(asked: Asked, not: bool) -> Asked {
    if not { Asked::Not(asked.into()) } else { asked }
}

/// The nearest of some names, and which there are.
fn told(name: &str, names: &[&str]) -> String {
    let near = guess(name, names);
    if names.len() > NAMED {
        let more = names.len() - NAMED;
        return format!(
            "{near}; there are {} and {more} more (`zoneprobe keys columns`)",
            names[..NAMED].join(", ")
        );
    }
    format!("{near}; there are {}", listed(names))
}

#[cfg(test)]
mod tests {
    use super::super::compiled::Column;
    use super::*;

    fn columns(of: &[(&str, Kind, &[&str])]) -> Columns {
        let column = |(name, kind, known): &(&str, Kind, &[&str])| Column {
            name: (*name).into(),
            kind: *kind,
            known: known.iter().map(|name| (*name).into()).collect(),
        };
        of.iter().map(column).collect()
    }

    fn parsed(text: &str) -> Result<Filter, String> {
        let possessions = columns(&[
            ("open_look", Kind::Flag, &[]),
            ("points", Kind::Number, &[]),
            ("ball_path", Kind::Text, &[]),
            ("outcome", Kind::Text, &["made", "missed"]),
            ("attack.rover.route", Kind::Text, &["seam-cross", "hold-wing"]),
        ]);
        let events = columns(&[
            ("event", Kind::Text, &["pass", "shot"]),
            ("by", Kind::Text, &[]),
            ("x_m", Kind::Number, &[]),
        ]);
        Filter::parse(text, &possessions, Some(&events)).map_err(|error| error.to_string())
    }

    #[test]
    fn what_can_be_asked_is_read_with_the_columns_that_it_needs() {
        let filter = parsed(
            "open_look and not points between 1 and 2 and (attack.rover.route = 'seam-cross' or outcome in ('made')) \
             and ball_path like '%rover%' and happened(event = 'shot' and x_m < -3.5) and count(by = 'rover') >= 2",
        );
        let filter = filter.unwrap();
        assert_eq!(filter.columns, ["open_look", "points", "attack.rover.route", "outcome", "ball_path"]);
        assert_eq!(filter.event_columns, ["event", "x_m", "by"]);
        assert_eq!(filter.questions.len(), 2);
        assert!(!parsed("points is not null").unwrap().asks_events());
        let alone = parsed("points > 1").unwrap();
        for whole in [
            "select * from possessions where points > 1;",
            "SELECT *\nFROM possessions WHERE points > 1",
            "where points > 1",
        ] {
            assert_eq!(parsed(whole).unwrap(), alone, "{whole}");
        }
    }

    #[test]
    fn what_is_wrong_is_named_with_what_is_allowed_and_the_nearest() {
        for (text, told) in [
            (
                "open_lok",
                "no column of possessions is called open_lok, did you mean open_look?; there are open_look,",
            ),
            ("outcome = 'mad'", "outcome: found 'mad', did you mean made?; there are made and missed"),
            ("points = 'two'", "points is a number, and 'two' is a text"),
            ("points", "it comes to a number, allowed is what is true or false"),
            ("happened(event = 'shott')", "event: found 'shott', did you mean shot?"),
            ("happened(points > 1)", "events have no points, their possession has: ask for it outside"),
            ("happened(pints > 1)", "no column of events is called pints"),
            ("x_m > 1", "possessions have no x_m, their events have: ask by happened(...) or count(...)"),
            ("attack.rover.route = 'seam'", "attack.rover.route: found 'seam', did you mean seam-cross?"),
            ("select points from possessions where points > 1", "found points where * should stand"),
            ("select * from events where x_m > 1", "found events where POSSESSIONS should stand"),
            ("where points > 1 ; or points < 1", "it goes on with ; where it should end"),
            ("where points > 1 order by points", "it goes on with order where it should end"),
            ("happened(count(event = 'shot') > 1)", "stands in the brackets of another"),
            ("happend(event = 'shot')", "did you mean happened?"),
            ("count(*) > 1", "needs one question about an event"),
            ("points > 1 open_look", "it goes on with open_look where it should end"),
            ("points >", "allowed are comparisons of columns"),
            ("points + 1 > 2", "found +, allowed are"),
            ("points in (1, 2) -- and open_look", "found the remark -- and open_look, allowed are"),
            ("points in (1, 2) /* and */ and open_look", "found the remark /* and */, allowed are"),
            ("points global in (1, 2)", "it goes on with global where it should end"),
            ("count(event = 'shot') filter (where x_m > 1000) >= 1", "goes into the brackets, too, with AND"),
            ("count(distinct event = 'pass') >= 1", "needs one question about an event"),
            ("count(event = 'pass' order by x_m limit 1) >= 1", "needs one question about an event"),
            ("happened(event = 'pass') over (partition by x_m)", "needs one question about an event"),
            ("count('x', 'y')(event = 'pass') > 1", "needs one question about an event"),
            ("count(event = 'pass') ignore nulls > 1", "needs one question about an event"),
            ("count(event = 'pass') within group (order by x_m) > 1", "needs one question about an event"),
            ("{fn count(event = 'pass')} > 1", "needs one question about an event"),
        ] {
            let error = parsed(text).unwrap_err();
            assert!(error.starts_with("the filter ") && error.contains(told), "{text}: {error}");
        }
        let none = Filter::parse("happened(event = 'shot')", &columns(&[]), None).unwrap_err().to_string();
        assert!(none.contains("none are recorded (--records events)"), "{none}");
    }
}
