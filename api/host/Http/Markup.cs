using System.Net;
using System.Text;

namespace FuelHistory.Host.Http;

/// <summary>What every web page of the host writes alike.</summary>
internal static class Markup
{
    /// <summary>Nothing in a page runs or loads anything, whatever a name holds.</summary>
    public const string ContentSecurityPolicy = "default-src 'none'; style-src 'unsafe-inline'";

    /// <summary>Text that stays text, whatever was typed.</summary>
    public static string Text(string text) => WebUtility.HtmlEncode(string.Concat(text.Where(c => !char.IsControl(c))));

    /// <param name="rows">Cells that are markup already.</param>
    public static string HeadedTable(IEnumerable<string> heads, IEnumerable<string[]> rows) =>
        $"<table><thead><tr>{string.Concat(heads.Select(h => $"<th scope=\"col\">{Text(h)}</th>"))}</tr></thead><tbody>\n"
        + string.Concat(rows.Select(row => $"<tr>{string.Concat(row.Select(cell => $"<td>{cell}</td>"))}</tr>\n")) + "</tbody></table>\n";
}

/// <summary>A web page to read or print.</summary>
public sealed class WebPage(string html) : IResult
{
    public const string MediaType = "text/html";

    public Task ExecuteAsync(HttpContext httpContext)
    {
        httpContext.Response.Headers.ContentSecurityPolicy = Markup.ContentSecurityPolicy;
        return TypedResults.Content(html, MediaType, Encoding.UTF8).ExecuteAsync(httpContext);
    }
}
