//! Pressed by name, as somebody does who cannot see: whatever can be used has a name, and the parts of the screen too.

use bevy_egui::egui::{Key, accesskit::Role};
use egui_kittest::{
    Harness,
    kittest::{NodeT, Queryable},
};

use switchdrop::work::Action;

use super::{
    super::{Options, panel::Intent, window_state::WindowState},
    bench::{LEARNER, tested_model, tour},
};

fn window(name: &str) -> Harness<'static, WindowState> {
    let folder = std::env::temp_dir().join(format!("switchdrop-named-{name}-{}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    let mut window_state = WindowState::new(Options { attempts: folder, seed: Some(4), ..Options::default() });
    window_state.is_for(LEARNER);
    let draw = |ui: &mut bevy_egui::egui::Ui, window: &mut WindowState| {
        window.frame(ui);
    };
    let mut window = Harness::builder().with_size([1280.0, 800.0]).build_ui_state(draw, window_state);
    window.run_steps(3);
    window
}

fn press(window: &mut Harness<'static, WindowState>, name: &str) {
    window.get_by_label(name).click_accesskit();
    window.run_steps(4);
}

/// Everything that can be used, by its role and name.
fn usable(window: &Harness<'static, WindowState>) -> Vec<(Role, String)> {
    let used = |it: Role| matches!(it, Role::Button | Role::CheckBox | Role::TextInput);
    let nodes = window.root().children_recursive();
    let nodes = nodes.map(|it| (it.accesskit_node().role(), it.accesskit_node().label().unwrap_or_default()));
    nodes.filter(|it| used(it.0)).collect()
}

#[test]
fn an_exercise_is_begun_and_a_place_made_out_by_name_alone() {
    let mut window = window("begin");
    press(&mut window, "Begin: One light, two switches, along a passage");
    for it in ["The drawing", "What comes next and what can be done", "Stage 1, Isolate: you are here"] {
        assert!(window.query_by_label(it).is_some(), "{it}");
    }
    press(&mut window, "Say what feeds the box at the kiln door");
    press(&mut window, "circuit 1, 6 A RCBO type B 30 mA, passage light");
    press(&mut window, "circuit 2, 6 A RCBO type B 30 mA, kiln shed light");
    press(&mut window, "These feed it");
    assert!(window.query_by_label_contains("box at the kiln door: fed by circuit 1 and circuit 2").is_some());
    press(&mut window, "Get agreement to switch off");
    let log = window.state().session().unwrap().attempt.log().len();
    assert_eq!(log, 2);
}

/// What is in the tray, what is in the hand, and what stands on its display.
#[test]
fn an_instrument_is_taken_in_hand_and_read_by_name_alone() {
    let mut window = window("tray");
    press(&mut window, "Begin: One light, two switches, along a passage");
    window.get_all_by_label("passage rose").next().unwrap().click();
    window.run_steps(4);
    for it in ["The tray", "Tools: in hand", "Voltage indicator", "Voltage stick", "Multimeter", "Meter"] {
        assert!(window.query_by_label(it).is_some(), "{it}");
    }
    press(&mut window, "Voltage indicator");
    assert!(window.query_by_label("Voltage indicator: in hand").is_some());
    assert!(window.query_by_label("nothing read yet").is_some());
    press(&mut window, "Try the indicator on the proving unit");
    assert!(window.query_by_label("lamps lit up to 230 V").is_some());
}

#[test]
fn whatever_can_be_used_has_a_name_on_every_screen() {
    let mut window = window("names");
    let mut looked_at = 0;
    let mut look = |window: &Harness<'static, WindowState>| {
        let all = usable(window);
        looked_at += all.len();
        let nameless: Vec<_> = all.iter().filter(|it| it.1.trim().is_empty()).collect();
        assert!(nameless.is_empty(), "{nameless:?} among {all:?}");
    };
    look(&window);
    press(&mut window, "Begin: One light, two switches, along a passage");
    look(&window);
    for it in ["Prediction", "passage rose", "Whole place"] {
        window.get_all_by_label(it).next().unwrap().click();
        window.run_steps(4);
        look(&window);
    }
    window.key_press(Key::F1);
    window.run_steps(3);
    look(&window);
    window.key_press(Key::F1);
    window.run_steps(3);
    press(&mut window, "All exercises");
    press(&mut window, "Just curious? See why.");
    press(&mut window, "far switch, rocker down: press it");
    look(&window);
    assert!(looked_at > 80, "only {looked_at}");
}

/// Every stage of an exercise, by the way that the other tests go, and the sheet with its buttons.
#[test]
fn so_it_has_on_the_screens_of_the_tools_the_tests_and_the_sheet() {
    let mut window = window("tools");
    let mut looked_at = 0;
    let mut look = |window: &Harness<'static, WindowState>, at: &str| {
        let all = usable(window);
        looked_at += all.len();
        assert!(all.iter().all(|it| !it.1.trim().is_empty()), "{at}: {all:?}");
    };
    press(&mut window, "Begin: One light, one switch, made off and tested");
    let (model, mut done) = (tested_model(), 0);
    for (until, clicks) in tour() {
        // One by one: of several together none is done after one that can't be.
        for action in &model[done..until] {
            window.state_mut().apply(Intent::Act(vec![action.clone()]));
        }
        window.run_steps(4);
        let log = &window.state().session().unwrap().attempt.log();
        assert!(log.ends_with(&model[done..until]), "before {clicks:?}: {}", window.state().said());
        done = until;
        for key in clicks {
            let id = window.state().targets().usable(key).unwrap_or_else(|| panic!("{key}")).id;
            window.ctx.memory_mut(|it| it.request_focus(id));
            window.run_steps(2);
            window.key_press(Key::Enter);
            window.run_steps(4);
            look(&window, key);
        }
    }
    // A sheet with something on it: handed in before every switch was worked.
    window.state_mut().apply(Intent::Act(vec![Action::HandIn]));
    window.state_mut().wait_for_the_story();
    window.run_steps(4);
    look(&window, "sheet");
    assert!(looked_at > 800, "only {looked_at}");
}

#[test]
fn an_empty_folder_says_what_to_do() {
    let window = window("empty");
    assert!(window.query_by_label_contains("You have no attempts yet. Choose an exercise").is_some());
}
