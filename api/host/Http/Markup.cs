using System.Net;

namespace FuelHistory.Host.Http;

/// <summary>What every web page of the host writes alike.</summary>
internal static class Markup
{
    /// <summary>Text that stays text, whatever was typed.</summary>
    public static string Text(string text) => WebUtility.HtmlEncode(string.Concat(text.Where(c => !char.IsControl(c))));
}
