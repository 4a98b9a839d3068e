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
