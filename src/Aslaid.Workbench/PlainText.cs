using Aslaid.Exchange;

namespace Aslaid.Workbench;

/// <summary>Words that a person types and others will read: names, reasons, attributes. What cannot be seen has no place in them.</summary>
public static class PlainText
{
    /// <summary>Gives a text back that holds neither control nor format characters: no line breaks, no marks that turn the direction of reading.</summary>
    /// <param name="what">As the person knows it, such as <c>--by</c>: it begins the message.</param>
    /// <exception cref="ProjectException">It holds one; the message shows each as its code point.</exception>
    public static string Demand(string what, string text) => CellText.HasUnseen(text)
        ? throw new ProjectException($"{what} holds characters that cannot be seen: {CellText.Shown(text)}. Write it on one line, without them.")
        : text;
}
