//! Where on the page the hand is typing.

/// The left end of the foot of the field in use, from the corner of the element that
/// `within` selects; `None`
/// where no field of a slip is in use.
pub fn foot_of_field(within: &str) -> Option<(f64, f64)> {
    let field = gloo::utils::document().active_element()?;
    let within = field.closest(within).ok()??;
    field.closest(".Slip").ok()??;
    let (field, page) = (
        field.get_bounding_client_rect(),
        within.get_bounding_client_rect(),
    );
    Some((field.left() - page.left(), field.bottom() - page.top()))
}
