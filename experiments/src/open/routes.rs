//! What is answered at which address.

use std::path::{Component, Path as FilePath};
use std::sync::Arc;
use std::sync::atomic::Ordering;
use std::time::Duration;

use axum::Router;
use axum::body::Body;
use axum::extract::{Form, Path, Query, Request, State};
use axum::http::{HeaderValue, StatusCode, header};
use axum::middleware::{Next, from_fn_with_state};
use axum::response::sse::{Event, KeepAlive, Sse};
use axum::response::{Html, IntoResponse, Redirect, Response};
use axum::routing::{get, post};
use tokio_stream::StreamExt;
use tokio_stream::wrappers::ReceiverStream;

use super::app::{App, held};
use super::fields::Fields;
use super::guard::REFUSED;
use super::live::{Ear, RESULT, SHEET, follow};
use super::{pages, save, thumbs};
use crate::picture::STYLE;

const SCRIPT: &str = concat!(include_str!("open.js"), include_str!("board.js"));
const PAGE: &str = include_str!("open.css");

/// What a page of ours may use: itself and nothing else.
const POLICY: &str = "default-src 'none'; style-src 'self' 'unsafe-inline'; script-src 'self'; img-src 'self' data:; \
                      connect-src 'self'; frame-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";
/// What files of a result may use is written in them; none of them may be shown by a foreign page.
const FILE_POLICY: &str = "frame-ancestors 'self'; connect-src 'none'; form-action 'none'";

/// Answers that a tab has not read yet.
const WAITING: usize = 16;

/// How long an answer has to reach its tab before the program ends.
const LAST_WORD: Duration = Duration::from_millis(200);

type Shared = State<Arc<App>>;

/// All addresses, each behind the guard.
pub fn router(app: &Arc<App>) -> Router {
    let own = Router::new()
        .route("/", get(index))
        .route("/film", get(film))
        .route("/open.css", get(style))
        .route("/open.js", get(script))
        .route("/floor.svg", get(floor))
        .route("/thumb/{*address}", get(thumb))
        .route("/ask", post(ask))
        .route("/q/{number}", get(question))
        .route("/q/{number}/run", get(run))
        .route("/q/{number}/stop", post(stop))
        .route("/q/{number}/films", get(films))
        .route("/q/{number}/file/{*name}", get(file))
        .route("/q/{number}/save", post(save_question))
        .route("/end", post(end));
    // The token is a part of every address, with its stroke at the end.
    let root = app.guard.root();
    Router::new()
        .nest(root.trim_end_matches('/'), own.clone())
        .route(&root, get(index))
        .fallback(nothing)
        .layer(from_fn_with_state(Arc::clone(app), guarded))
        .with_state(Arc::clone(app))
}

/// Lets in whom the guard lets in, and says on every answer what it may be used for.
async fn guarded(State(app): Shared, request: Request, next: Next) -> Response {
    let mut response = if app.guard.lets_in(request.method(), request.uri().path(), request.headers()) {
        next.run(request).await
    } else {
        (StatusCode::FORBIDDEN, REFUSED).into_response()
    };
    let headers = response.headers_mut();
    for (name, value) in [
        ("referrer-policy", "same-origin"),
        ("x-content-type-options", "nosniff"),
        ("cache-control", "no-store"),
        ("cross-origin-resource-policy", "same-origin"),
        ("cross-origin-opener-policy", "same-origin"),
    ] {
        headers.insert(name, HeaderValue::from_static(value));
    }
    headers.entry(header::CONTENT_SECURITY_POLICY).or_insert(HeaderValue::from_static(POLICY));
    response
}

/// Work that takes a while, on a thread of its own.
async fn apart<T: Send + 'static>(work: impl FnOnce() -> T + Send + 'static) -> Result<T, Response> {
    tokio::task::spawn_blocking(work).await.map_err(|_| {
        (StatusCode::INTERNAL_SERVER_ERROR, "zoneprobe broke down here; the terminal says more\n")
            .into_response()
    })
}

async fn index(State(app): Shared, Query(asked): Query<Vec<(String, String)>>) -> Html<String> {
    let again = Fields(asked).get("again").and_then(|number| app.asked(number.parse().ok()?));
    let fields = again.map(|asked| asked.fields.clone()).unwrap_or_default();
    Html(pages::index(&app, &fields, None))
}

async fn nothing(State(app): Shared) -> Response {
    (StatusCode::NOT_FOUND, Html(pages::lost(&app, "There is nothing here"))).into_response()
}

/// The film on the first page: the floor and its clock alone.
async fn film(State(app): Shared) -> Result<Response, Response> {
    let page = apart(move || {
        let (asking, outcome) = &app.first;
        asking.film(outcome.sides[0], None, outcome.typical)
    });
    let page = page.await?.map_err(|error| failed(&error.told(false)))?;
    const ALONE: &str = ".head,.readings,.told,.foot,.shown,.strip,.legend{display:none}body{padding:8px;max-width:none}\
                         .board{display:block!important}</style>";
    Ok(document("text/html; charset=utf-8", page.replacen("</style>", ALONE, 1)))
}

/// Something of a result, or drawn for the page.
fn document(kind: &'static str, body: impl Into<Body>) -> Response {
    let headers = [(header::CONTENT_TYPE, kind), (header::CONTENT_SECURITY_POLICY, FILE_POLICY)];
    (headers, body.into()).into_response()
}

fn failed(said: &str) -> Response {
    (StatusCode::INTERNAL_SERVER_ERROR, said.to_owned()).into_response()
}

async fn style() -> Response {
    ([(header::CONTENT_TYPE, "text/css; charset=utf-8")], format!("{PAGE}{STYLE}")).into_response()
}

async fn script() -> Response {
    ([(header::CONTENT_TYPE, "text/javascript; charset=utf-8")], SCRIPT).into_response()
}

/// The lines under the defenders that are moved by hand, in metres.
async fn floor(State(app): Shared) -> Response {
    document("image/svg+xml", thumbs::floor(&app.first.0.experiment.variants[0].setup.court))
}

async fn thumb(State(app): Shared, Path(address): Path<String>) -> Result<Response, Response> {
    let drawn = apart({
        let app = Arc::clone(&app);
        move || thumbs::picture(&app, &address)
    });
    match drawn.await? {
        Some(drawn) => Ok(document("image/svg+xml", drawn.to_vec())),
        None => Err(nothing(State(app)).await),
    }
}

async fn ask(State(app): Shared, Form(typed): Form<Vec<(String, String)>>) -> Result<Response, Response> {
    let fields = Fields(typed);
    let again = fields.clone();
    let taken = apart({
        let app = Arc::clone(&app);
        move || app.take(fields)
    });
    Ok(match taken.await? {
        Ok(asked) => Redirect::to(&format!("{}q/{}", app.guard.root(), asked.number)).into_response(),
        Err(refused) => {
            let page = pages::index(&app, &again, Some(&refused));
            (StatusCode::UNPROCESSABLE_ENTITY, Html(page)).into_response()
        }
    })
}

/// What is said where there is no question of this number.
fn lost(app: &App) -> Response {
    (StatusCode::NOT_FOUND, Html(pages::lost(app, "There is no such question"))).into_response()
}

async fn question(State(app): Shared, Path(number): Path<usize>) -> Result<Html<String>, Response> {
    let asked = app.asked(number).ok_or_else(|| lost(&app))?;
    Ok(Html(pages::question(&app, &asked)))
}

async fn run(State(app): Shared, Path(number): Path<usize>) -> Result<Response, Response> {
    let asked = app.asked(number).ok_or_else(|| lost(&app))?;
    let (sender, hears) = tokio::sync::mpsc::channel::<Event>(WAITING);
    let ear = Ear { sender, ended: Arc::clone(&app.ended) };
    tokio::task::spawn_blocking(move || follow(&app, &asked, &ear));
    let events = ReceiverStream::new(hears).map(Ok::<_, std::convert::Infallible>);
    // A word now and then, by which it shows whether the tab is still there.
    Ok(Sse::new(events).keep_alive(KeepAlive::new().interval(Duration::from_secs(1))).into_response())
}

async fn stop(State(app): Shared, Path(number): Path<usize>) -> Result<StatusCode, Response> {
    let asked = app.asked(number).ok_or_else(|| lost(&app))?;
    if let Some(run) = held(&asked.run).as_ref() {
        run.stopped.store(true, Ordering::Relaxed);
    }
    Ok(StatusCode::NO_CONTENT)
}

async fn films(State(app): Shared, Path(number): Path<usize>) -> Result<Response, Response> {
    let asked = app.asked(number).ok_or_else(|| lost(&app))?;
    let page = apart(move || {
        let answer = held(&asked.outcome).clone()?;
        Some(answer.outcome.films(&answer.asking))
    });
    match page.await? {
        None => Err(nothing(State(app)).await),
        Some(page) => {
            Ok(document("text/html; charset=utf-8", page.map_err(|error| failed(&error.told(false)))?))
        }
    }
}

/// A file of a result or a sheet.
async fn file(State(app): Shared, Path((number, name)): Path<(usize, String)>) -> Result<Response, Response> {
    let asked = app.asked(number).ok_or_else(|| lost(&app))?;
    let name = FilePath::new(&name);
    let inside = name.components().all(|part| matches!(part, Component::Normal(_)));
    let served = [RESULT, SHEET].iter().any(|folder| name.starts_with(folder));
    let kind = match name.extension().and_then(|end| end.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("pdf") => "application/pdf",
        Some("svg") => "image/svg+xml",
        Some("csv") => "text/csv; charset=utf-8",
        Some("json") => "application/json",
        _ => "text/plain; charset=utf-8",
    };
    let path = asked.folder.join(name);
    let bytes = if inside && served { apart(move || std::fs::read(path).ok()).await? } else { None };
    match bytes {
        Some(bytes) => Ok(document(kind, bytes)),
        None => Err(nothing(State(app)).await),
    }
}

async fn save_question(
    State(app): Shared,
    Path(number): Path<usize>,
    Form(typed): Form<Vec<(String, String)>>,
) -> Result<Response, Response> {
    let asked = app.asked(number).ok_or_else(|| lost(&app))?;
    let saved = apart(move || {
        let answer = asked.answer()?;
        let is_whole = matches!(*held(&answer.written), Some(Ok(())));
        is_whole.then(|| save::save(&asked, &answer, Fields(typed).get("name")))
    });
    Ok(match saved.await? {
        None => (StatusCode::CONFLICT, "there is no whole result yet\n").into_response(),
        Some(Err(error)) => failed(&error.told(false)),
        Some(Ok(saved)) => {
            let folder = std::path::absolute(&saved.folder).unwrap_or(saved.folder);
            let folder = scenarios::shown_path(&folder);
            Html(pages::saved(&folder, &saved.command).into_string()).into_response()
        }
    })
}

async fn end(State(app): Shared) -> &'static str {
    tokio::spawn(async move {
        tokio::time::sleep(LAST_WORD).await;
        app.ended.store(true, Ordering::Relaxed);
    });
    "Zoneprobe has ended. This tab can be closed."
}
